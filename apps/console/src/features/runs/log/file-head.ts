/** Metadata lines stand in front of the table; this much of a file holds far more than any rig writes there. */
const HEAD_BYTES = 65_536;

/** What a rig's file says of itself: its lines "# name: value", in their order. */
export async function headOf(file: Blob): Promise<Map<string, string>> {
  const text = await file.slice(0, HEAD_BYTES).text();
  const said = new Map<string, string>();
  for (const line of text.split(/\r?\n/)) {
    const [, name, value] = /^#\s*([^:]+?)\s*:\s*(.*?)\s*$/.exec(line) ?? [];
    if (name !== undefined && value) said.set(name, value);
    else if (line.trim() !== '' && !line.startsWith('#') && !line.startsWith('\uFEFF#')) break;
  }
  return said;
}
