// The script of all panels: the page says which part of it runs.
import * as z from 'zod/mini';

// The fast reader of zod is made with `Function`, which the pages forbid.
z.config({ jitless: true });

if (document.body.dataset.panel === 'why') void import('./why.js');
else void import('./preview.js');
