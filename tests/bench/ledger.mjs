/**
 * How long a ledger of a million entries takes to be checked from its texts: the chain alone, and chain, tree and root,
 * beside SHA-256 over the same bytes and nothing else, as ratios.
 */
import { hash } from 'node:crypto';
import { checkLink, linkEntry, MerkleTree, sha256 } from '@breakbook/evidence';

/** Entries as a lab writes them: one row each, of some hundred characters. */
function* entriesOf(count) {
  let head;
  for (let n = 0; n < count; n++) {
    const id = `0198c2f0-1111-7000-8000-${String(n).padStart(12, '0')}`;
    head = linkEntry(head, {
      id,
      lab: '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c01',
      at: new Date(Date.UTC(2031, 2, 4) + 1000 * n).toISOString(),
      by: '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c02',
      action: 'specimen measured',
      rows: [
        {
          table: 'measurement',
          id,
          digest: sha256(id),
          after: { 'content/mass': { unit: 'g', value: 400 + (n % 40) } },
        },
      ],
    });
    yield head;
  }
}

const seconds = (work) => {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
};

/** Prints the table; `count` is how many entries. */
export function benchLedger(count) {
  const entries = [...entriesOf(count)];
  const bare = seconds(() => {
    for (const { text } of entries) hash('sha256', text, 'hex');
  });
  let head;
  const chain = seconds(() => {
    for (const entry of entries) {
      const link = checkLink(head, entry);
      if (!('head' in link)) throw new Error(link.because);
      head = link.head;
    }
  });
  const tree = new MerkleTree();
  const grown = seconds(() => {
    for (const { hash } of entries) tree.append(hash);
    tree.root();
  });
  const proofs = 1000;
  const proven = seconds(() => {
    for (let n = 0; n < proofs; n++) tree.proveInclusion(Math.floor((n / proofs) * count));
  });
  const bytes = entries.reduce((sum, { text }) => sum + text.length, 0);
  const row = (what, time, each) =>
    console.log(`| ${what} | ${time.toFixed(2)} | ${(time / bare).toFixed(1)} | ${((time / each) * 1e6).toFixed(1)} |`);
  console.log(`\n${count} ledger entries, ${(bytes / 1e6).toFixed(0)} MB:\n`);
  console.log('| what | s | times bare SHA-256 | µs each |\n| --- | --- | --- | --- |');
  row('SHA-256 of the same bytes, one call an entry', bare, count);
  row('chain checked: form, hash, number, entry before', chain, count);
  row('tree grown from the hashes, with its root', grown, count);
  row(`${proofs} inclusion proofs`, proven, proofs);
}
