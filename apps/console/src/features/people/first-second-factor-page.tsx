import type { Myself } from '../../client/answers.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { SecondFactorSection } from './second-factor-section.js';
import { SignOut } from './signed-in-person.js';

/** Where the lab asks everybody for a second factor, whoever has none adds one before anything else. */
export function FirstSecondFactorPage({ me }: { me: Myself }) {
  return (
    <main className="before">
      <Sheet title="Second factor">
        <HeadStrip
          noun="Breakbook"
          name="Add a second factor"
          sentence="This lab asks everybody for one beside the passphrase, and you have none yet."
          next="everything else opens once you have one."
          actions={<SignOut />}
          facts={[
            { term: 'Signed in', says: <bdi>{me.name}</bdi> },
            { term: 'Lab', says: me.lab.name },
          ]}
        />
        <SecondFactorSection />
      </Sheet>
    </main>
  );
}
