/** The software and version that stands in every reading, judgement and document. */
export const SOFTWARE = 'breakbook 0.1.0';
