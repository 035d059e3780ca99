/* What the pages of a docket that somebody works on have in common. All text goes in as text, never as markup. */
const livePage = (function () {
  "use strict";

  /** An element; attributes that are true stand alone, those that are false or null are left out, functions listen. */
  function element(name, attributes, ...children) {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(attributes || {})) {
      if (typeof value === "function") made.addEventListener(key, value);
      else if (value !== false && value !== null && value !== undefined) made.setAttribute(key, value === true ? "" : SPOKEN.includes(key) ? said(value) : value);
    }
    made.append(...children.flat().filter((child) => child !== null && child !== undefined).map((child) => (typeof child === "string" ? said(child) : child)));
    return made;
  }

  /** The check sum of the data (CRC-32): damage on the way, in a word or in a number. */
  function checksum(text) {
    let sum = -1;
    for (let index = 0; index < text.length; index += 1) {
      sum ^= text.charCodeAt(index);
      for (let bit = 0; bit < 8; bit += 1) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
    }
    return (~sum >>> 0).toString(16).padStart(8, "0");
  }

  // --- another language ------------------------------------------------------------------------------------------

  const SPOKEN = ["aria-label", "data-label", "aria-valuetext"];
  const AMOUNT = "[+\u2212]?[0-9][0-9.]*(?:\u00a0[^;,]+?)?";
  const NUMBER = /^[+\u2212]?[0-9]+(\.[0-9]+)?(\u00a0(US gal|lb|kg|in|mm|L|min)(\/(US gal|L|h))?)?$/;
  let sentences = null, patterns = [];

  /**
   * Say everything in the words that came with the page: sentences as the script has them, with a name in braces for each value.
   * What "amount" names is a number, and what "typed" names stays as somebody wrote it.
   */
  function speak(words) {
    if (!words) return;
    sentences = words;
    patterns = Object.entries(words).filter(([one]) => one.includes("{")).map(([one, other]) => {
      const pieces = one.split(/\{(\w+)\}/), fixed = pieces.filter((_, place) => place % 2 === 0).join("").length;
      const source = pieces.map((piece, place) => (place % 2 ? `(?<${piece}>${piece.startsWith("amount") ? AMOUNT : ".+?"})` : piece.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")));
      return { fixed, other, match: new RegExp(`^${source.join("")}$`) };
    }).sort((one, other) => other.fixed - one.fixed);
  }

  /** A text of the script in the language of the page, or as it is: names of the job stay. */
  function said(text) {
    if (!sentences || !/[A-Za-z0-9]/.test(text)) return text;
    if (Object.hasOwn(sentences, text)) return sentences[text];
    const date = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/.exec(text);
    if (date) return `${date[3]}.${date[2]}.${date[1]}`;
    if (NUMBER.test(text)) return text.replace(/^([^.\u00a0]*)\./, "$1,");
    for (const { other, match } of patterns) {
      const found = match.exec(text);
      if (found) return other.replace(/\{(\w+)\}/g, (_, name) => (name.startsWith("typed") ? found.groups[name] : said(found.groups[name])));
    }
    for (const mark of ["; ", ". ", ": ", ", "]) {
      const place = text.indexOf(mark);
      if (place > 0) return said(text.slice(0, place)) + mark + said(text.slice(place + mark.length));
    }
    return text;
  }

  /** What a person wrote, or what the page says in its language already: it goes in as it stands. */
  const asItStands = (text) => document.createTextNode(text);

  /** A number that was or will be typed, as the language writes it. */
  const typedNumber = (text) => (sentences ? text.replace(".", ",") : text);

  return { element, checksum, speak, said, asItStands, typedNumber };
})();
