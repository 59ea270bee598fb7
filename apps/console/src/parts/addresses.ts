/** Addresses of the sheets. Names come from people and files, so they are encoded. */
export function lotAddress(lot: string): string {
  return `/lots/${encodeURIComponent(lot)}`;
}

export function runAddress(lot: string, run: string): string {
  return `${lotAddress(lot)}/runs/${encodeURIComponent(run)}`;
}

/** Where a lot is decided about. */
export function dispositionAddress(lot: string): string {
  return `${lotAddress(lot)}/disposition`;
}

export function nonconformityAddress(n: number): string {
  return `/nonconformities/${n}`;
}

export function safetyFlagAddress(n: number): string {
  return `/safety-flags/${n}`;
}

export function specimenAddress(specimen: string): string {
  return `/specimens/${encodeURIComponent(specimen)}`;
}

export function rigAddress(rig: string): string {
  return `/rigs/${encodeURIComponent(rig)}`;
}

/** Where the layout of a rig is made for a file at hand; the bytes of an unread file are opened there where one is named. */
export function layoutAddress(rig: string, unread?: string): string {
  return `${rigAddress(rig)}/layout${unread === undefined ? '' : `?unread=${encodeURIComponent(unread)}`}`;
}

/** Where a run is logged; its specimen is filled in where it is known already. */
export function logRunAddress(specimen?: string): string {
  return specimen === undefined ? '/log' : `/log?specimen=${encodeURIComponent(specimen)}`;
}

/** Where the bytes of an unread file are described as the files of a run. */
export function logUnreadAddress(unread: string): string {
  return `/log?unread=${encodeURIComponent(unread)}`;
}

export function proposalAddress(number: number): string {
  return `/approvals/${number}`;
}

/** The sheet of a document; its file is at `documentAddress`. */
export function documentSheetAddress(n: number): string {
  return `/documents/${n}`;
}

export function certificateAddress(n: number): string {
  return `/certificates/${n}`;
}

export function oldTableAddress(table: number): string {
  return `/old-results/${table}`;
}

export function productAddress(product: string): string {
  return `/products/${encodeURIComponent(product)}`;
}

export function personAddress(person: string): string {
  return `/people/${encodeURIComponent(person)}`;
}

/** Where a plan is written from a draft; what a design fixed is filled in there. */
export function writePlanAddress(filled: { template?: string; design?: string }): string {
  const search = new URLSearchParams(filled);
  return search.size === 0 ? '/planning/plan' : `/planning/plan?${search}`;
}

export function referenceAddress(reference: string): string {
  return `/references/${encodeURIComponent(reference)}`;
}

/** Where specimens of a product are chosen as a reference. */
export function chooseReferenceAddress(product?: string): string {
  return product === undefined ? '/choose-reference' : `/choose-reference?product=${encodeURIComponent(product)}`;
}

export function comparisonAddress(comparison: string): string {
  return `/comparisons/${encodeURIComponent(comparison)}`;
}

/** Where a comparison is declared; what is known already is filled in there. */
export function declareComparisonAddress(filled: { product?: string; reference?: string } = {}): string {
  const search = new URLSearchParams(filled);
  return search.size === 0 ? '/declare-comparison' : `/declare-comparison?${search}`;
}
