import type { CancellationToken, Connection, ResponseError } from 'vscode-languageserver';
import type { Features } from './features.js';
import { whyRequest } from './messages.js';

type Serve = <Result>(
  name: string,
  token: CancellationToken,
  fallback: Result,
  work: (features: Features) => Result | Promise<Result>,
) => Promise<Result | ResponseError>;

/** Names of the requests beside the protocol. Here and not with their work, which is loaded later. */
const tableRequests = { step: 'stave/tableStep', weeks: 'stave/changeWeeks' } as const;

const starterRequests = {
  offers: 'stave/starter/offers',
  read: 'stave/starter/read',
  client: 'stave/starter/client',
  programs: 'stave/starter/programs',
  follow: 'stave/starter/follow',
  places: 'stave/starter/places',
} as const;

/** Answers to what `moreFeatures` does. */
export function answerMore(connection: Connection, serve: Serve): void {
  connection.onSignatureHelp((params, token) =>
    serve('signature', token, null, (ready) => ready.signature(params)),
  );
  connection.onCodeLens((params, token) => serve('lenses', token, null, (ready) => ready.lenses(params)));
  connection.onCodeLensResolve((lens, token) =>
    serve('lens', token, lens, (ready) => ready.resolveLens(lens)),
  );
  connection.onDocumentLinks((params, token) => serve('links', token, null, (ready) => ready.links(params)));
  connection.onDocumentLinkResolve((link, token) =>
    serve('link', token, link, (ready) => ready.resolveLink(link)),
  );
  connection.onCompletionResolve((item, token) =>
    serve('completion', token, item, (ready) => ready.resolveItem(item)),
  );
  connection.languages.inlayHint.resolve((hint, token) =>
    serve('hint', token, hint, (ready) => ready.resolveHint(hint)),
  );
  connection.onDocumentOnTypeFormatting((params, token) =>
    serve('format', token, null, (ready) => ready.formatOnType(params)),
  );
  connection.onRequest(tableRequests.step, (params: unknown, token: CancellationToken) =>
    serve('table', token, null, (ready) => ready.tableStep(params)),
  );
  connection.onRequest(tableRequests.weeks, (params: unknown, token: CancellationToken) =>
    serve('weeks', token, null, (ready) => ready.changeWeeks(params)),
  );
  connection.onRequest(whyRequest, (params: unknown, token: CancellationToken) =>
    serve('why', token, null, (ready) => ready.why(params)),
  );
  answerStarter(connection, serve);
}

/** Answers to what `starterFeatures` does. */
function answerStarter(connection: Connection, serve: Serve): void {
  const on = (method: string, work: (features: Features, params: unknown) => Promise<unknown>): void => {
    connection.onRequest(method, (params: unknown, token: CancellationToken) =>
      serve('starter', token, null, (ready) => work(ready, params)),
    );
  };
  on(starterRequests.offers, (ready, params) => ready.starterOffers(params));
  on(starterRequests.read, (ready, params) => ready.starterRead(params));
  on(starterRequests.client, (ready, params) => ready.starterClient(params));
  on(starterRequests.programs, (ready, params) => ready.starterPrograms(params));
  on(starterRequests.follow, (ready, params) => ready.starterFollow(params));
  on(starterRequests.places, (ready, params) => ready.starterPlaces(params));
}
