// Looks every second whether the job's files were changed elsewhere. The page works without it.
"use strict";
const news = document.getElementById("news");
const form = document.querySelector("main form[method=post]");
let typed = false, waiting = false;

// What is typed and not entered stays until its person decides; only the kind of evidence that was chosen is shown.
if (form) {
  form.addEventListener("input", () => { typed = true; document.getElementById("unsaved").textContent = "typed, not entered yet"; });
  form.addEventListener("submit", () => { waiting = true; });
}
for (const pick of document.querySelectorAll("select[name^='rests:']")) {
  const show = () => { for (const one of pick.closest("details").querySelectorAll("fieldset")) one.hidden = one.dataset.ground !== pick.value; };
  pick.addEventListener("change", show);
  show();
}
if (document.querySelector(".wrong")) { typed = true; }

// What would help a finding is put below it, so that what is typed meanwhile stays.
for (const ask of document.querySelectorAll("a.help-me")) {
  ask.addEventListener("click", async (event) => {
    event.preventDefault();
    const place = ask.parentElement;
    if (place.dataset.looking) return;
    place.dataset.looking = "1";
    const told = document.createElement("span");
    told.className = "looking";
    told.setAttribute("role", "status");
    told.textContent = " Looking; this takes some seconds.";
    place.append(told);
    try {
      const answer = await fetch("helps?of=" + encodeURIComponent(ask.dataset.of), { cache: "no-store" });
      if (!answer.ok) throw new Error(await answer.text());
      // The server escapes every text of the job, as on the page itself.
      place.insertAdjacentHTML("afterend", await answer.text());
      const shown = place.nextElementSibling;
      place.remove();
      shown.focus();
    } catch {
      told.textContent = " Nothing could be looked for. Load the page again.";
      delete place.dataset.looking;
    }
  });
}

async function look() {
  if (waiting) return;
  try {
    const answer = await fetch("news", { cache: "no-store" });
    if (!answer.ok) throw new Error(String(answer.status));
    const { mark, "looking at": looking } = await answer.json();
    for (const told of document.querySelectorAll(".looking")) if (looking) told.textContent = " Looking at " + looking;
    if (mark !== document.body.dataset.mark) {
      if (typed) {
        news.textContent = "The job was changed elsewhere. What you typed is still here; Enter shows it beside what the file says now, and does not write over it.";
      } else {
        waiting = true;
        sessionStorage.setItem("liftout changed elsewhere", "1");
        location.replace(location.pathname + location.search.replace(/&?(entered|same|helps)=[^&]*/g, ""));
      }
    } else if (news.dataset.gone) {
      delete news.dataset.gone;
      news.textContent = "";
    }
  } catch {
    news.dataset.gone = "1";
    news.textContent = "liftout desk has ended, or does not answer. Nothing typed now is entered.";
  }
}
if (sessionStorage.getItem("liftout changed elsewhere")) {
  sessionStorage.removeItem("liftout changed elsewhere");
  news.textContent = "The job was changed elsewhere; this page shows what it says now.";
}
setInterval(look, 1000);
