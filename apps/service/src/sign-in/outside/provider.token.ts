/** By this the provider is asked for by whose word people may sign in; undefined where there is none. */
export const PROVIDER = Symbol('provider');
