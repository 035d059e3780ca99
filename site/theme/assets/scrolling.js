/* What is wider than the page scrolls in a box of its own; such a box is given a stop for the keyboard, and only where it scrolls. */
(function () {
  "use strict";

  function stop(box) {
    if (box.scrollWidth > box.clientWidth || box.scrollHeight > box.clientHeight + 1) box.tabIndex = 0;
    else box.removeAttribute("tabindex");
  }

  // Formulas are measured when they come into sight: a page of worksheets has thousands.
  const seen = new IntersectionObserver((entries) => entries.filter((one) => one.isIntersecting).forEach((one) => stop(one.target)));

  function watch() {
    seen.disconnect();
    document.querySelectorAll(".formula").forEach((box) => seen.observe(box));
    document.querySelectorAll(".drawing").forEach(stop);
  }

  watch();
  document.fonts.ready.then(watch);
  window.addEventListener("resize", watch);
})();
