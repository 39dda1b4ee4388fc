import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { clientFiles, withClientFiles } from '../lsp/clientFiles.js';
import { startServer } from '../lsp/startServer.js';
import { nodeRuntime } from './runtime.js';

// Bundled as dist/server.cjs; what is shipped beside dist/ is found from there.
const shipped = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
const connection = createConnection(ProposedFeatures.all);
startServer(connection, withClientFiles(nodeRuntime(shipped), clientFiles(connection)));
