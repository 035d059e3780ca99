/* The theme looks at the words to search for when a key is let go; words also come by pasting, dragging and speaking. */
(function () {
  "use strict";

  const words = document.querySelector(".md-search__input");
  words?.addEventListener("input", () => words.dispatchEvent(new Event("keyup")));
})();
