/* What is wider than the page scrolls in a box of its own; such a box is given a stop for the keyboard, and only where it scrolls. */
(function () {
  "use strict";

  function stop(box) {
    const moves = box.scrollWidth > box.clientWidth || box.scrollHeight > box.clientHeight + 1;
    box.classList.toggle("moves", moves);
    // Whoever stands there is not sent back to the top of the page.
    if (moves) box.tabIndex = 0;
    else if (box !== document.activeElement) box.removeAttribute("tabindex");
  }

  // What a worksheet holds is measured when it comes into sight: a page has thousands of formulas.
  const seen = new IntersectionObserver((entries) => entries.filter((one) => one.isIntersecting).forEach((one) => stop(one.target)), { rootMargin: "100% 0px" });

  function watch() {
    seen.disconnect();
    document.querySelectorAll(".formula, .worksheet .wide").forEach((box) => seen.observe(box));
    document.querySelectorAll(".drawing, .wide").forEach((box) => box.closest(".worksheet") || stop(box));
  }

  watch();
  document.fonts.ready.then(watch);
  window.addEventListener("resize", watch);
})();
