/** What a person or a program gets to see of a review: terminal text, web page, JSON and SARIF. */
package sprag.bench.review.page;
