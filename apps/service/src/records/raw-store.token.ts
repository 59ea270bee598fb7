/** By this the raw store is asked for; it is an interface, so it has no class to ask for. */
export const RAW_STORE = Symbol('raw store');
