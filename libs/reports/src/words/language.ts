export { LANGUAGES, type Language } from '@breakbook/lab';
