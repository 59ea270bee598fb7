import { type RouteDuty } from './duty.decorator.js';

/**
 * Who may call which route: the same as the decorators say, written down a second time by what the lab wants, so that a
 * duty is never changed by an edit beside something else. A new route gets its line here.
 */
export const ROUTE_DUTIES: Record<string, RouteDuty> = {
  'GET /health/live': 'anybody',
  'GET /health/ready': 'anybody',

  'POST /api/sign-in': 'anybody',
  'POST /api/sign-out': 'anybody',
  'GET /api/me': 'signed in',
  'POST /api/me/again': 'signed in',
  'POST /api/me/passphrase': 'signed in',

  'GET /api/people': 'signed in',
  'GET /api/people/:person': 'signed in',
  'POST /api/people': ['administer'],
  'PUT /api/people/:person': ['administer'],
  'PUT /api/people/:person/duties': ['administer'],
  'POST /api/people/:person/passphrase': ['administer'],
  'POST /api/people/:person/closing': ['administer'],

  'GET /api/rigs/:rig/tokens': ['administer', 'audit'],
  'POST /api/rigs/:rig/tokens': ['administer'],
  'POST /api/rigs/:rig/tokens/:number/revocation': ['administer'],

  'GET /api/labs': 'signed in',
  'GET /api/labs/:lab': 'signed in',
  'GET /api/labs/:lab/history': 'signed in',
  'PUT /api/labs/:lab': ['administer'],

  'GET /api/products': 'signed in',
  'GET /api/products/:product': 'signed in',
  'GET /api/products/:product/history': 'signed in',
  'POST /api/products': ['define'],
  'PUT /api/products/:product': ['define'],

  'GET /api/methods': 'signed in',
  'GET /api/methods/:method': 'signed in',
  'GET /api/methods/:method/revisions': 'signed in',
  'GET /api/methods/:method/revisions/:revision': 'signed in',
  'POST /api/methods': ['define'],
  'POST /api/methods/:method/revisions': ['define'],

  'GET /api/layouts': 'signed in',
  'GET /api/layouts/:layout': 'signed in',
  'GET /api/layouts/:layout/revisions': 'signed in',
  'GET /api/layouts/:layout/revisions/:revision': 'signed in',
  'POST /api/layouts': ['define'],
  'POST /api/layouts/:layout/revisions': ['define'],

  'GET /api/limits': 'signed in',
  'GET /api/limits/:limit': 'signed in',
  'GET /api/limits/:limit/revisions': 'signed in',
  'GET /api/limits/:limit/revisions/:revision': 'signed in',
  'POST /api/limits': ['define'],
  'POST /api/limits/:limit/revisions': ['define'],

  'GET /api/plans': 'signed in',
  'GET /api/plans/:plan': 'signed in',
  'GET /api/plans/:plan/revisions': 'signed in',
  'GET /api/plans/:plan/revisions/:revision': 'signed in',
  'POST /api/plans': ['define'],
  'POST /api/plans/:plan/revisions': ['define'],

  'GET /api/rigs': 'signed in',
  'GET /api/rigs/:rig': 'signed in',
  'GET /api/rigs/:rig/history': 'signed in',
  'POST /api/rigs': ['calibrate'],
  'PUT /api/rigs/:rig': ['calibrate'],
  'GET /api/rigs/:rig/placements': 'signed in',
  'POST /api/rigs/:rig/placements': ['calibrate'],
  'PUT /api/rigs/:rig/placements/:placement': ['calibrate'],
  'GET /api/sensors': 'signed in',
  'GET /api/sensors/:sensor': 'signed in',
  'GET /api/sensors/:sensor/history': 'signed in',
  'POST /api/sensors': ['calibrate'],
  'PUT /api/sensors/:sensor': ['calibrate'],
  'GET /api/calibrations': 'signed in',
  'GET /api/calibrations/:calibration': 'signed in',
  'GET /api/calibrations/:calibration/history': 'signed in',
  'POST /api/calibrations': ['calibrate'],
  'PUT /api/calibrations/:calibration': ['calibrate'],

  'GET /api/lots': 'signed in',
  'GET /api/lots/:lot': 'signed in',
  'GET /api/lots/:lot/history': 'signed in',
  'GET /api/lots/:lot/sheet': 'signed in',
  'GET /api/lots/:lot/sampling': 'signed in',
  'GET /api/lots/:lot/runs/:run': 'signed in',
  'GET /api/lots/:lot/report.pdf': 'signed in',
  'GET /api/lots/:lot/evaluations': 'signed in',
  'POST /api/lots': ['draw'],
  'PUT /api/lots/:lot': ['draw'],
  'POST /api/lots/:lot/sampling': ['draw'],
  'PUT /api/lots/:lot/sampling': ['draw'],
  'POST /api/lots/:lot/closing': ['draw', 'decide'],
  'POST /api/lots/:lot/opening': ['draw', 'decide'],
  'GET /api/specimens': 'signed in',
  'GET /api/specimens/:specimen': 'signed in',
  'GET /api/specimens/:specimen/history': 'signed in',
  'POST /api/specimens': ['draw'],
  'POST /api/specimens/several': ['draw'],
  'PUT /api/specimens/:specimen': ['draw'],

  // The one route for the computers of rigs.
  'POST /api/runs': ['record', 'send'],
  'GET /api/runs': 'signed in',
  'GET /api/runs/:run': 'signed in',
  'GET /api/runs/:run/trace': 'signed in',
  'GET /api/runs/:run/files/:n': 'signed in',
  'POST /api/runs/:run/measurements': ['record'],
  'POST /api/runs/:run/examination': ['record'],
  'POST /api/runs/:run/validity': ['review'],
  'GET /api/unread': 'signed in',
  'GET /api/unread/:id': 'signed in',
  'POST /api/unread/:id/read': ['record'],
  'POST /api/unread/:id/discard': ['record', 'review'],

  'POST /api/lots/:lot/evaluations': ['review', 'decide', 'issue'],
  'GET /api/evaluations/:n': 'signed in',
  'POST /api/evaluations/:n/documents': ['issue', 'decide'],
  'GET /api/documents': 'signed in',
  'GET /api/documents/:n': 'signed in',
  'GET /api/documents/:n.pdf': 'signed in',
  'GET /api/jobs/:id': 'signed in',
  'GET /api/jobs/:id/events': 'signed in',
  'POST /api/jobs/:id/cancel': 'signed in',

  'GET /api/compute/methods': 'signed in',
  'GET /api/compute/schema': 'signed in',
  'POST /api/compute': 'signed in',
  'GET /api/ledger': 'signed in',
  'GET /api/ledger/head': 'signed in',
  'GET /api/ledger/:sequence': 'signed in',
  'POST /api/ledger/verification': ['audit'],
};

/** Routes that ask for the passphrase again: signing, deciding, and changes of duties and keys. */
export const ROUTES_ASKING_AGAIN = [
  'POST /api/people',
  'PUT /api/people/:person',
  'PUT /api/people/:person/duties',
  'POST /api/people/:person/passphrase',
  'POST /api/people/:person/closing',
  'POST /api/rigs/:rig/tokens',
  'POST /api/rigs/:rig/tokens/:number/revocation',
];

/** Routes open to whoever has not chosen an own passphrase yet. */
export const ROUTES_WITH_GIVEN_PASSPHRASE = ['GET /api/me', 'POST /api/me/passphrase'];
