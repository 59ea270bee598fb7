/** The part of the UCUM library that this room calls. */
declare module '@lhncbc/ucum-lhc' {
  interface UcumUnit {
    magnitude_: number;
    dim_: { dimVec_: number[] | null } | null;
    cnv_: string | null;
  }
  interface Specified {
    unit: UcumUnit | null;
    origString: string;
    retMsg: string[];
  }
  const ucum: {
    UcumLhcUtils: { getInstance(): { getSpecifiedUnit(code: string, valConv: 'validate'): Specified } };
  };
  export default ucum;
}
