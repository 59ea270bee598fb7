import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { useMe } from './me.js';
import { OwnPassphraseForm } from './own-passphrase-form.js';
import { SecondFactorSection } from './second-factor-section.js';
import { SessionsSection } from './sessions-section.js';
import { SignOut } from './signed-in-person.js';

/** The signed-in person's own page: their duties, what they sign in with, where they are signed in. */
export function MyPage() {
  const me = useMe();
  const { secondFactor, secondFactorNeeded, duties } = me;
  const lacks = secondFactor === 'none' && secondFactorNeeded !== 'nothing';
  return (
    <Sheet title="Me">
      <HeadStrip
        noun="Person"
        name={<bdi>{me.name}</bdi>}
        of={me.role}
        sentence={lacks ? 'Your duties need a second factor beside the passphrase, and you have none yet.' : undefined}
        next={lacks ? 'add a code generator or a passkey below.' : undefined}
        actions={<SignOut />}
        facts={[
          { term: 'Signs in as', says: me.person },
          { term: 'Duties', says: duties.length === 0 ? 'none' : duties.join(', ') },
          { term: 'Lab', says: me.lab.name },
        ]}
      />
      <SecondFactorSection />
      <SessionsSection />
      <Section
        question="Which passphrase do you choose?"
        word="Passphrase"
        aside="A new passphrase ends every session of yours but this one."
      >
        <OwnPassphraseForm me={me} current="Passphrase until now" />
      </Section>
    </Sheet>
  );
}
