/** Prints `N passed, N failed` from the test report, and ends with a status that agrees with it. */
import fs from 'node:fs';

const [reportFile = '', status = '1'] = process.argv.slice(2);
if (!fs.existsSync(reportFile)) {
  console.log('no test report was written: the tests did not start');
  console.log('0 passed, 1 failed');
  process.exit(1);
}
const report = JSON.parse(fs.readFileSync(reportFile, 'utf8'));
const notRun = report.testResults
  .flatMap((file) => file.assertionResults)
  .filter((one) => one.status !== 'passed' && one.status !== 'failed')
  .map((one) => one.fullName.trim());
for (const name of notRun) console.log(name);

const brokenFiles = report.testResults.filter(
  (file) => file.status === 'failed' && file.assertionResults.length === 0,
).length;
const failed = report.numFailedTests + brokenFiles + notRun.length;
// A run that ended badly without a failed test (a crashed worker, an error outside a test) is a failure too.
const counted = failed === 0 && Number(status) !== 0 ? 1 : failed;
console.log(`${report.numPassedTests} passed, ${counted} failed`);
process.exit(counted === 0 && report.numPassedTests > 0 ? 0 : 1);
