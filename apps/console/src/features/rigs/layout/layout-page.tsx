import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useParams, useSearchParams } from 'react-router';
import { proposalFor, unreadPart } from '../../../client/layout-files.js';
import { layoutsQuery, methodsQuery, rigQuery, unreadFileQuery, unreadPartAddress } from '../../../client/queries.js';
import { DropField } from '../../../parts/drop-field.js';
import { HeadStrip, Section, Sheet } from '../../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../../parts/trouble.js';
import './layout.css';
import { LayoutEditor } from './layout-editor.js';

/** A layout made for a file at hand: dropped here, or the bytes of an unread file. */
export function LayoutPage() {
  const { rig = '' } = useParams();
  const [search] = useSearchParams();
  const unread = search.get('unread') ?? undefined;
  const [dropped, setDropped] = useState<File>();
  const known = useQuery(rigQuery(rig));
  const kept = useQuery({
    queryKey: ['unread', 'bytes', unread],
    enabled: unread !== undefined && dropped === undefined,
    queryFn: ({ client, signal }) => firstPart(client.fetchQuery(unreadFileQuery(unread ?? '')), signal),
    staleTime: Number.POSITIVE_INFINITY,
  });
  const file = dropped ?? kept.data;
  const error = known.error ?? kept.error;
  return (
    <Sheet title={`Layout of rig ${rig}`}>
      <HeadStrip
        noun="Layout of rig"
        name={rig}
        of={known.data?.content.name}
        sentence="Drop a file as the rig writes it. What it says of itself is shown, you say the rest, and see at once what would be read. Nothing of the file is kept."
        facts={file ? [{ term: 'File', says: <bdi>{file.name}</bdi> }] : []}
      />
      <div className="layout-editor">
        {error ? (
          <Trouble
            error={error}
            onAgain={() => {
              void known.refetch();
              void kept.refetch();
            }}
          />
        ) : (
          <Section question="Which file?" word="File">
            {unread !== undefined && !file ? (
              <Reading what="the unread file" />
            ) : (
              <DropField
                label={file ? 'Drop another file here, or choose it' : 'Drop the file here, or choose it'}
                onFiles={([one]) => one && setDropped(one)}
              />
            )}
          </Section>
        )}
        {file && (
          <OfFile key={`${file.name} ${file.size} ${file.lastModified}`} rig={rig} file={file} unread={unread} />
        )}
      </div>
    </Sheet>
  );
}

/** The first part of an unread file: of several they are written alike. */
async function firstPart(
  asked: Promise<{ id: string; parts: readonly { name: string }[] }>,
  signal: AbortSignal,
): Promise<File> {
  const { id, parts } = await asked;
  return unreadPart(unreadPartAddress(id, 1), parts[0]?.name ?? 'unread', signal);
}

function OfFile({ rig, file, unread }: { rig: string; file: File; unread: string | undefined }) {
  const proposal = useQuery({
    queryKey: ['layout proposal', file.name, file.size, file.lastModified],
    queryFn: ({ signal }) => proposalFor(file, signal),
    staleTime: Number.POSITIVE_INFINITY,
    retry: false,
  });
  const layouts = useQuery(layoutsQuery);
  const methods = useQuery(methodsQuery);
  const error = proposal.error ?? layouts.error ?? methods.error;
  if (error) return <Trouble error={error} onAgain={() => void proposal.refetch()} />;
  if (!proposal.data || !layouts.data || !methods.data) return <Reading what={file.name} />;
  const channels = methods.data.flatMap(({ content }) => content.channels.map(({ channel }) => channel));
  return (
    <LayoutEditor
      rig={rig}
      file={file}
      unread={unread}
      proposal={proposal.data}
      channels={[...new Set(channels)].sort()}
      inForce={layouts.data.find(({ content }) => content.rig === rig)?.content}
    />
  );
}
