/* Contents and Search are buttons, for whoever has no mouse; the theme knows both by a box that is ticked. */
(function () {
  "use strict";

  for (const button of document.querySelectorAll("[data-opens]")) {
    const box = document.getElementById(button.dataset.opens);
    const opened = { __drawer: ".md-sidebar--primary a[href]", __search: ".md-search__input" }[button.dataset.opens];

    const set = (open) => {
      box.checked = open;
      box.dispatchEvent(new Event("change"));
    };

    button.addEventListener("click", () => set(!box.checked));
    box.addEventListener("change", () => {
      button.setAttribute("aria-expanded", String(box.checked));
      if (box.checked) setTimeout(() => [...document.querySelectorAll(opened)].find((one) => one.checkVisibility({ visibilityProperty: true }))?.focus(), 300);
    });
    document.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !box.checked) return;
      set(false);
      button.focus();
    });
  }
})();
