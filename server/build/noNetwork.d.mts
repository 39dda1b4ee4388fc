import type { Plugin } from 'esbuild';

export const NETWORK_MODULES: readonly string[];
export const noNetwork: Plugin;
