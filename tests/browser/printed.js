// @ts-check
/* A page as it comes out of the printer: its words, page by page, read back from the printed file. */
"use strict";

/** Without spaces of any width: a line may break between any two words. @param {string} words */
const plain = (words) => words.replace(/[\s\u00a0\u200b\u2060]+/g, "");

/** The words of each page of a printed file. @param {Buffer} file @returns {Promise<string[]>} */
async function sheets(file) {
  const { getDocument } = await import("pdfjs-dist/legacy/build/pdf.mjs");
  const printed = await getDocument({ data: new Uint8Array(file), verbosity: 0 }).promise;
  const words = [];
  for (let at = 1; at <= printed.numPages; at += 1) {
    const { items } = await (await printed.getPage(at)).getTextContent();
    words.push(plain(items.map((item) => ("str" in item ? item.str : "")).join(" ")));
  }
  return words;
}

module.exports = { plain, sheets };
