import { normalQuantile } from '../distributions/normal.js';
import { normalUpperTail } from '../distributions/normal-tail.js';

export type LinkName = 'probit' | 'logit';

/** ln of the share at a predictor, and its first two derivatives. */
export interface LogShare {
  value: number;
  first: number;
  second: number;
}

/** How a share breaking follows from a linear predictor. Both curves are symmetric: what holds follows from -eta. */
export interface Link {
  logShare(eta: number): LogShare;
  /** Expected information of one specimen about its predictor. */
  information(eta: number): number;
  /** The predictor of a share. */
  quantile(share: number): number;
}

const out = new Float64Array(3);

/** Share Phi(eta). */
const probit: Link = {
  logShare(eta) {
    normalUpperTail(-eta, out);
    const hazard = out[1] as number;
    return { value: out[0] as number, first: hazard, second: -hazard * (out[2] as number) };
  },
  information(eta) {
    normalUpperTail(eta, out);
    const above = out[1] as number;
    normalUpperTail(-eta, out);
    return above * (out[1] as number);
  },
  quantile: normalQuantile,
};

/** Share 1 / (1 + exp(-eta)). */
const logit: Link = {
  logShare(eta) {
    const holds = 1 / (1 + Math.exp(eta));
    return {
      value: eta < 0 ? eta - Math.log1p(Math.exp(eta)) : -Math.log1p(Math.exp(-eta)),
      first: holds,
      second: -holds * (1 - holds),
    };
  },
  information(eta) {
    const share = 1 / (1 + Math.exp(-eta));
    return share * (1 - share);
  },
  quantile: (share) => Math.log(share) - Math.log1p(-share),
};

export const links: Record<LinkName, Link> = { probit, logit };
