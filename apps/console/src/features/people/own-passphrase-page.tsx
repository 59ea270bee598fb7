import type { Myself } from '../../client/answers.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { OwnPassphraseForm } from './own-passphrase-form.js';
import { SignOut } from './signed-in-person.js';

/** Whoever was given a passphrase chooses an own one first: what somebody else has seen signs nothing. */
export function OwnPassphrasePage({ me }: { me: Myself }) {
  return (
    <main className="before">
      <Sheet title="Own passphrase">
        <HeadStrip
          noun="Breakbook"
          name="Choose your own passphrase"
          sentence="The one you signed in with was given to you, so somebody else has seen it."
          next="everything else opens once you have one of your own."
          actions={<SignOut />}
          facts={[
            { term: 'Signed in', says: <bdi>{me.name}</bdi> },
            { term: 'Role', says: me.role },
            { term: 'Lab', says: me.lab.name },
          ]}
        />
        <Section question="Which passphrase do you choose?" word="Passphrase">
          <OwnPassphraseForm me={me} current="Passphrase you were given" />
        </Section>
      </Sheet>
    </main>
  );
}
