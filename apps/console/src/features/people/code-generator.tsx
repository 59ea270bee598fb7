import { useMutation, useQueryClient } from '@tanstack/react-query';
import encodeQR from 'qr';
import { useState } from 'react';
import { meQuery, secondFactorQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';
import { PassphraseAgain } from './passphrase-again.js';

interface Showing {
  /** Recovery codes are shown once, by whoever holds this section. */
  onCodes: (codes: string[]) => void;
}

/** Adds a code generator: a secret drawn by the service, read by an app, taken into use with its first code. */
export function AddCodeGenerator({ onCodes }: Showing) {
  const queries = useQueryClient();
  const [code, setCode] = useState('');
  const draw = useMutation({ mutationFn: () => send('POST /api/me/code-generator') });
  const confirm = useMutation({
    mutationFn: () => send('POST /api/me/code-generator/confirmation', { body: { code } }),
    onSuccess: async ({ recoveryCodes }) => {
      onCodes(recoveryCodes);
      await queries.invalidateQueries({ queryKey: secondFactorQuery.queryKey });
      await queries.invalidateQueries({ queryKey: meQuery.queryKey });
    },
  });
  if (!draw.data)
    return (
      <>
        <p>An app on your telephone, or a program for passwords, shows a new code every half minute.</p>
        <button type="button" className="action main" onClick={() => draw.mutate()} disabled={draw.isPending}>
          Add a code generator
        </button>
        <FormProblem error={needsPassphrase(draw.error) ? null : draw.error} />
        <PassphraseAgain error={draw.error} onGiven={() => draw.mutate()} adding />
      </>
    );
  return (
    <>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          confirm.mutate();
        }}
      >
        <p>Have the app read this picture, or type the secret below it. Neither is shown again.</p>
        <Picture text={draw.data.address} />
        <p>
          Secret: <code>{draw.data.secret.match(/.{1,4}/g)?.join(' ')}</code>
        </p>
        <Field
          label="Code that the app shows"
          autoComplete="one-time-code"
          inputMode="numeric"
          required
          value={code}
          onChange={({ target }) => setCode(target.value)}
        />
        <FormProblem error={needsPassphrase(confirm.error) ? null : confirm.error} />
        <button className="action main" type="submit" disabled={confirm.isPending}>
          Take it into use
        </button>
      </form>
      <PassphraseAgain error={confirm.error} onGiven={() => confirm.mutate()} adding />
    </>
  );
}

/** A text as a picture that a camera reads (ISO/IEC 18004), black on white in any light, with its quiet margin. */
function Picture({ text }: { text: string }) {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: 4 });
  const dark = rows.flatMap((row, y) => row.flatMap((on, x) => (on ? [`M${x} ${y}h1v1h-1z`] : [])));
  return (
    <svg
      className="code-picture"
      viewBox={`0 0 ${rows.length} ${rows.length}`}
      role="img"
      aria-label="The secret, for a camera"
    >
      <rect width="100%" height="100%" fill="#fff" />
      <path d={dark.join('')} fill="#000" shapeRendering="crispEdges" />
    </svg>
  );
}
