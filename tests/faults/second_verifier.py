"""A second verifier of signed documents, of another make than the first: Python's standard library and openssl, written
from docs/formats.md ("Signed document", "Ledger") alone.

Reads lines of JSON from standard input, each {"file": <path of a PDF>}, and answers each with a line
{"holds": true} or {"holds": false, "because": <why>}. The first argument is a file of the lab's public keys.

Ed25519 is RFC 8032, section 5.1, in plain integers: slow, and read side by side with the standard.
"""

import base64
import hashlib
import json
import re
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path


class DoesNotHold(Exception):
    pass


def need(holds, because):
    if not holds:
        raise DoesNotHold(because)


# ---- Ed25519 (RFC 8032, 5.1) ----

P = 2**255 - 19
ORDER = 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, -1, P) % P
ROOT_OF_MINUS_ONE = pow(2, (P - 1) // 4, P)


def x_of(y, sign):
    if y >= P:
        return None
    square = (y * y - 1) * pow(D * y * y + 1, -1, P) % P
    if square == 0:
        return None if sign else 0
    x = pow(square, (P + 3) // 8, P)
    if (x * x - square) % P != 0:
        x = x * ROOT_OF_MINUS_ONE % P
    if (x * x - square) % P != 0:
        return None
    return P - x if x & 1 != sign else x


BASE_Y = 4 * pow(5, -1, P) % P
BASE_X = x_of(BASE_Y, 0)
BASE = (BASE_X, BASE_Y, 1, BASE_X * BASE_Y % P)


def added(a, b):
    e = (a[1] - a[0]) * (b[1] - b[0]) % P
    f = (a[1] + a[0]) * (b[1] + b[0]) % P
    g = 2 * a[3] * b[3] * D % P
    h = 2 * a[2] * b[2] % P
    i, j, k, m = f - e, h - g, h + g, f + e
    return (i * j % P, k * m % P, j * k % P, i * m % P)


def times(n, point):
    result = (0, 1, 1, 0)
    while n:
        if n & 1:
            result = added(result, point)
        point = added(point, point)
        n >>= 1
    return result


def point_of(data):
    number = int.from_bytes(data, "little")
    y = number & ((1 << 255) - 1)
    x = x_of(y, number >> 255)
    return None if x is None else (x, y, 1, x * y % P)


def is_signed(public, message, signature):
    if len(public) != 32 or len(signature) != 64:
        return False
    a, r = point_of(public), point_of(signature[:32])
    s = int.from_bytes(signature[32:], "little")
    if a is None or r is None or s >= ORDER:
        return False
    hashed = hashlib.sha512(signature[:32] + public + message).digest()
    k = int.from_bytes(hashed, "little") % ORDER
    left, right = times(s, BASE), added(r, times(k, a))
    return (left[0] * right[2] - right[0] * left[2]) % P == 0 and (left[1] * right[2] - right[1] * left[2]) % P == 0


# ---- Canonical JSON (RFC 8785) ----


def number_text(value):
    """As ECMAScript writes a number: the shortest digits that read back (ECMA-262, Number::toString)."""
    if value == 0:
        return "0"
    short = repr(abs(value))
    mantissa, _, power = short.partition("e")
    whole, _, fraction = mantissa.partition(".")
    fraction = fraction if fraction != "0" else ""
    digits = (whole + fraction).lstrip("0")
    place = len(whole) + int(power or 0) - (len(whole + fraction) - len((whole + fraction).lstrip("0")))
    digits = digits.rstrip("0") or "0"
    n = len(digits)
    if n <= place <= 21:
        text = digits + "0" * (place - n)
    elif 0 < place <= 21:
        text = digits[:place] + "." + digits[place:]
    elif -6 < place <= 0:
        text = "0." + "0" * -place + digits
    else:
        power = place - 1
        text = digits[0] + ("." + digits[1:] if n > 1 else "") + "e" + ("+" if power >= 0 else "-") + str(abs(power))
    return ("-" if value < 0 else "") + text


def canonical(value):
    if value is None or value is True or value is False:
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, (int, float)):
        return number_text(float(value))
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, list):
        return "[" + ",".join(canonical(one) for one in value) + "]"
    members = sorted(value.items(), key=lambda member: member[0].encode("utf-16-be", "surrogatepass"))
    return "{" + ",".join(canonical(name) + ":" + canonical(one) for name, one in members) + "}"


def from_canonical(data, what):
    text = data.decode("utf-8")
    value = json.loads(text)
    need(canonical(value) == text, f"{what} is not canonical JSON")
    return value


# ---- The file ----

RANGE = re.compile(rb"/ByteRange \[0 (\d{1,10}) (\d{1,10}) (\d{1,10})\]")


def signed_parts(data):
    found = RANGE.findall(data)
    need(len(found) == 1, f"{len(found)} signatures")
    end, again, rest = (int(one) for one in found[0])
    need(again + rest == len(data), "bytes behind the signed end, or cut off")
    place = data[end:again]
    need(re.fullmatch(rb"<[0-9a-f]{16384}>", place) is not None, "no signature between the signed bytes")
    need(data[:end].endswith(b"/Contents "), "the signature stands in another place")
    return data[:end] + data[again:], bytes.fromhex(place[1:-1].decode())


def element(data, at):
    """Tag, content and end of the DER element at a place."""
    need(at + 2 <= len(data), "the signature is cut off")
    tag, length, start = data[at], data[at + 1], at + 2
    if length & 0x80:
        size = length & 0x7F
        need(size in (1, 2), "a length that DER would not have")
        length, start = int.from_bytes(data[start : start + size], "big"), start + size
        need(length >= (0x80 if size == 1 else 0x100), "a length that DER would write shorter")
    need(start + length <= len(data), "the signature is cut off")
    return tag, data[start : start + length], start + length


def elements(content):
    at, found = 0, []
    while at < len(content):
        tag, inner, end = element(content, at)
        found.append((tag, inner, content[at:end]))
        at = end
    return found


def der(tag, *parts):
    content = b"".join(parts)
    size = len(content)
    length = bytes([size]) if size < 0x80 else (lambda raw: bytes([0x80 | len(raw)]) + raw)(
        size.to_bytes((size.bit_length() + 7) // 8, "big")
    )
    return bytes([tag]) + length + content


SEQUENCE, SET, INTEGER, OCTETS, OID, NULL, CONTEXT_0 = 0x30, 0x31, 0x02, 0x04, 0x06, b"\x05\x00", 0xA0
OIDS = {
    "data": "2a864886f70d010701",
    "signed data": "2a864886f70d010702",
    "content type": "2a864886f70d010903",
    "message digest": "2a864886f70d010904",
    "signing certificate v2": "2a864886f70d010910022f",
    "SHA-256": "608648016503040201",
    "ECDSA with SHA-256": "2a8648ce3d040302",
    "RSA with SHA-256": "2a864886f70d01010b",
}


def oid(name):
    return der(OID, bytes.fromhex(OIDS[name]))


def written_again(signed, named, signature, is_ecdsa):
    """The one form of a signature over these bytes, with these certificates, the signer's first (docs/formats.md)."""
    first = elements(elements(element(named[0], 0)[1])[0][1])
    # The version of a certificate is left out in the oldest form (RFC 5280, 4.1).
    serial, issuer = (first[1][2], first[3][2]) if first[0][0] == CONTEXT_0 else (first[0][2], first[2][2])
    by_digest = [der(SEQUENCE, der(OCTETS, hashlib.sha256(one).digest())) for one in named]
    attributes = [
        der(SEQUENCE, oid("content type"), der(SET, oid("data"))),
        der(SEQUENCE, oid("message digest"), der(SET, der(OCTETS, hashlib.sha256(signed).digest()))),
        der(SEQUENCE, oid("signing certificate v2"), der(SET, der(SEQUENCE, der(SEQUENCE, *by_digest)))),
    ]
    one = der(INTEGER, b"\x01")
    sha256 = der(SEQUENCE, oid("SHA-256"))
    signer = der(
        SEQUENCE,
        one,
        der(SEQUENCE, issuer, serial),
        sha256,
        der(CONTEXT_0, *sorted(attributes)),
        der(SEQUENCE, oid("ECDSA with SHA-256")) if is_ecdsa else der(SEQUENCE, oid("RSA with SHA-256"), NULL),
        der(OCTETS, signature),
    )
    certificates = der(CONTEXT_0, *sorted(named))
    data = der(SEQUENCE, one, der(SET, sha256), der(SEQUENCE, oid("data")), certificates, der(SET, signer))
    return der(SEQUENCE, oid("signed data"), der(CONTEXT_0, data))


def check_cms(signed, padded, certificates, folder):
    _, _, end = element(padded, 0)
    need(not any(padded[end:]), "bytes in the padding")
    info = elements(element(padded, 0)[1])
    signed_data = elements(elements(info[1][1])[0][1])
    held = [whole for _, _, whole in elements(signed_data[3][1])]
    signer = elements(signed_data[4][1])
    need(len(signer) == 1, "not one signer")
    fields = elements(signer[0][1])
    need(len(fields) == 6, "something unsigned beside the signature")
    attributes = elements(fields[3][1])
    need(len(attributes) == 3, "other signed attributes than three")
    named = elements(elements(elements(elements(attributes[2][1])[1][1])[0][1])[0][1])
    digests = [elements(one)[0][1] for _, one, _ in named]
    by_digest = {hashlib.sha256(one).digest(): one for one in held}
    need(sorted(by_digest) == sorted(digests), "the certificates are not those that were signed with")
    own = by_digest[digests[0]]
    need(own in certificates, "the certificate is none of the lab's")
    is_ecdsa = fields[5][1][0] == 0x30 and len(fields[5][1]) < 80
    again = written_again(signed, [by_digest[one] for one in digests], fields[5][1], is_ecdsa)
    need(again == padded[:end], "the signature is not written in its one form")
    if is_ecdsa:
        half = 0xFFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551 // 2
        s = int.from_bytes(elements(elements(fields[5][1])[0][1])[1][1], "big")
        need(s <= half, "the other spelling of the same signature")
    (folder / "cms").write_bytes(padded[:end])
    (folder / "content").write_bytes(signed)
    words = ["-inform", "DER", "-in", "cms", "-content", "content", "-binary", "-noverify", "-out", "/dev/null"]
    told = subprocess.run(["openssl", "cms", "-verify", *words], cwd=folder, capture_output=True)
    need(told.returncode == 0, "openssl: the signature is not one of these bytes")
    return certificates[own]


def attached(data):
    """Files by their names, found by the table of places at the end (ISO 32000-2, 7.5)."""
    start = int(re.search(rb"startxref\s+(\d+)\s+%%EOF\s*$", data).group(1))
    _, count = (int(one) for one in re.match(rb"xref\s+(\d+) (\d+)", data[start:]).groups())
    head = re.match(rb"xref\s+\d+ \d+\s+", data[start:]).end()
    rows = data[start + head : start + head + 20 * count]
    places = {n: int(rows[20 * n : 20 * n + 10]) for n in range(count) if rows[20 * n + 17 : 20 * n + 18] == b"n"}
    files = {}
    for n, place in places.items():
        spec = data[place : place + 2000].split(b"endobj")[0]
        if b"/Type /Filespec" not in spec:
            continue
        name = re.search(rb"/F \(((?:[^()\\]|\\.)*)\)", spec).group(1).decode("latin-1")
        at = places[int(re.search(rb"/EF <<\s*/F (\d+) 0 R", spec).group(1))]
        head, _, _ = data[at:].partition(b"stream\n")
        length = int(re.search(rb"/Length (\d+)", head).group(1))
        body = data[at + len(head) + 7 :][:length]
        need(name not in files, "two attached files of one name")
        files[name] = zlib.decompress(body) if b"/FlateDecode" in head else body
    return files


# ---- The ledger ----


def leaf_hash(text):
    return hashlib.sha256(b"\0" + text).digest()


def node_hash(left, right):
    return hashlib.sha256(b"\1" + left + right).digest()


def root_from(leaf, size, hashed, proof):
    """RFC 9162, 2.1.3.2."""
    need(0 <= leaf < size, "no such leaf")
    fn, sn, result = leaf, size - 1, hashed
    for step in proof:
        need(sn != 0, "a proof too long")
        if fn & 1 or fn == sn:
            result = node_hash(step, result)
            while not fn & 1 and fn:
                fn, sn = fn >> 1, sn >> 1
        else:
            result = node_hash(result, step)
        fn, sn = fn >> 1, sn >> 1
    need(sn == 0, "a proof too short")
    return result


def opened(note, line):
    """The text of a signed note, signed by the key of this line."""
    name, key_id, encoded = line.split("+", 2)
    typed = base64.b64decode(encoded, validate=True)
    need(typed[0] == 1 and hashlib.sha256(name.encode() + b"\n" + typed).hexdigest()[:8] == key_id, "a key unlike its id")
    text, _, signatures = note.rpartition("\n\n")
    text += "\n"
    for one in signatures.rstrip("\n").split("\n"):
        dash, by, signature = one.split(" ")
        data = base64.b64decode(signature, validate=True)
        need(base64.b64encode(data).decode() == signature, "another spelling of the same signature")
        if dash == "\u2014" and by == name and data[:4].hex() == key_id:
            need(is_signed(typed[1:], text.encode(), data[4:]), "the note is not signed by its key")
            return text
    raise DoesNotHold("the note has no signature of this key")


def from_base64url(text):
    data = base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))
    need(base64.urlsafe_b64encode(data).rstrip(b"=").decode() == text, "another spelling of the same bytes")
    return data


def check(data, keys, folder):
    certificates = {}
    for pair in keys["keys"]:
        pem = pair["certificates"][0]
        certificates[base64.b64decode("".join(pem.strip().split("\n")[1:-1]))] = pair
    signed, padded = signed_parts(data)
    pair = check_cms(signed, padded, certificates, folder)

    files = attached(data)
    (stem,) = [name[:-4] for name in files if name.endswith(".jws")]
    content = files[stem + ".json"]
    identity = from_canonical(content, "the content")["identity"]
    need(f"{identity['number']}-rev-{identity['revision']}" == stem, "the content of another document")
    issued = identity["issuedAt"]
    need("revoked" not in pair, "the keys were revoked")
    need(pair["from"] <= issued <= pair.get("until", issued), "issued outside the time of the keys")

    header, middle, signature = files[stem + ".jws"].decode("ascii").split(".")
    need(middle == "", "the signature of the data has data in it")
    kid = pair["data"]["kid"]
    need(from_base64url(header).decode() == '{"alg":"EdDSA","kid":"%s"}' % kid, "another header, or another key")
    public = from_base64url(pair["data"]["x"])
    message = header.encode() + b"." + base64.urlsafe_b64encode(content).rstrip(b"=")
    need(is_signed(public, message, from_base64url(signature)), "the data are not signed by the key of the pair")

    record = from_canonical(files[stem + "-ledger.json"], "the record of the ledger")
    entry = record["entry"].encode()
    first, body, rest = entry.split(b"\n")
    need(first == b"breakbook ledger entry 1" and rest == b"", "no entry of a ledger")
    said = from_canonical(body, "the entry")
    digest = hashlib.sha256(content).hexdigest()
    rows = [one for one in said["rows"] if one["table"] == "document_content"]
    need(any(one["after"].get("sha256") == digest for one in rows), "the entry does not name the content")
    need(said["sequence"] == record["leaf"] + 1, "the entry stands in another place")
    need(record["key"] in keys["ledger"], "the key of the checkpoint is none of the lab's")
    origin, size, root, _ = opened(record["checkpoint"], record["key"]).split("\n", 3)
    need(record["key"].startswith(origin + "+"), "a checkpoint of another ledger")
    reached = root_from(record["leaf"], int(size), leaf_hash(entry), [bytes.fromhex(one) for one in record["proof"]])
    need(base64.b64encode(reached).decode() == root, "the proof does not lead to the root")


def main():
    keys = json.loads(Path(sys.argv[1]).read_text())
    with tempfile.TemporaryDirectory() as folder:
        for line in sys.stdin:
            try:
                check(Path(json.loads(line)["file"]).read_bytes(), keys, Path(folder))
                answer = {"holds": True}
            except DoesNotHold as error:
                answer = {"holds": False, "because": str(error)}
            # Whatever cannot even be read is no document of ours.
            except (ValueError, KeyError, IndexError, AttributeError, TypeError, zlib.error) as error:
                answer = {"holds": False, "because": f"{type(error).__name__}: {error}"}
            print(json.dumps(answer), flush=True)


if __name__ == "__main__":
    main()
