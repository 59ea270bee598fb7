/** The name of a channel or characteristic as words: "lateralRunOutBefore" is "lateral run out before". */
export function inWords(name: string): string {
  return name.replaceAll(/(?<=[a-z])(?:[A-Z]|\d+)/g, (next) => ` ${next.toLowerCase()}`);
}
