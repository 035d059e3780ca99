/* What the pages of a docket that somebody works on have in common. All text goes in as text, never as markup. */
const livePage = (function () {
  "use strict";

  /** An element; attributes that are true stand alone, those that are false or null are left out, functions listen. */
  function element(name, attributes, ...children) {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(attributes || {})) {
      if (typeof value === "function") made.addEventListener(key, value);
      else if (value !== false && value !== null && value !== undefined) made.setAttribute(key, value === true ? "" : value);
    }
    made.append(...children.flat().filter((child) => child !== null && child !== undefined));
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

  return { element, checksum };
})();
