/** A review as one HTML file that needs nothing else: no script, no font, no picture from outside. */
import { paperToHtml } from '../print/paper/html.js';
import { buildReview } from '../print/review.js';
import type { Review } from './review.js';

/** The HTML file of a review, the same as the printed document. */
export function reviewToHtml(review: Review): string {
  return paperToHtml(buildReview(review, { printedOn: review.today, size: 'a4', large: false, from: null }));
}
