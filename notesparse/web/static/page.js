// Drafts that survive reload, lock and a dead battery; keys for the cards; a word when the program is gone.
// All else works without this script.
"use strict";
(() => {
  const form = () => document.querySelector("form[data-draft]");
  const tab = (() => {
    try { if (!sessionStorage.tab) sessionStorage.tab = Math.random().toString(36).slice(2); return sessionStorage.tab; } catch { return "one"; }
  })();
  const home = "draft:" + (document.documentElement.dataset.root || "") + ":";
  const key = (f) => home + f.dataset.draft + ":" + tab;
  const say = (words) => { const at = document.getElementById("drafted"); if (at) at.textContent = words; };

  const store = (f) => {
    const text = f.elements.text.value;
    try { if (text && text !== f.elements.text.defaultValue) localStorage.setItem(key(f), text); else localStorage.removeItem(key(f)); } catch { say("This device keeps no drafts."); }
  };

  const begin = () => {
    const f = form();
    if (f) {
      if (!f.elements.text.value) {
        let kept = null;
        try {
          const mine = key(f), left = home + f.dataset.draft + ":";
          kept = localStorage.getItem(mine);
          if (!kept) {  // of a tab that is gone: a dead battery, a closed browser
            const other = Object.keys(localStorage).find((k) => k.startsWith(left));
            if (other) { kept = localStorage.getItem(other); localStorage.removeItem(other); localStorage.setItem(mine, kept); }
          }
        } catch { /* a device that keeps nothing */ }
        if (kept) { f.elements.text.value = kept; say("Your draft is back."); }
      }
      let waiting = 0;
      f.elements.text.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(() => { store(f); say("Draft kept on this device."); }, 400); });
      addEventListener("pagehide", () => store(f));
      document.addEventListener("visibilitychange", () => { if (document.hidden) store(f); });
      const date = f.elements.date;
      if (date && !date.value) { const now = new Date(); date.value = new Date(now - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10); }
    }
    if (document.querySelector("[data-kept]")) {
      try { for (const k of Object.keys(localStorage)) if (k.startsWith(home) && k.endsWith(":" + tab)) localStorage.removeItem(k); } catch { /* nothing kept */ }
    }
  };

  // A press sends a note once; a card once.
  document.addEventListener("submit", (e) => {
    const f = e.target;
    if (f.method !== "post") return;
    if (f.dataset.sent) { e.preventDefault(); return; }
    f.dataset.sent = "1";
    setTimeout(() => { delete f.dataset.sent; }, 4000);
  });

  document.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.altKey || e.metaKey || /^(INPUT|TEXTAREA|SELECT)$/.test(e.target.tagName)) return;
    const at = document.querySelector('[data-key="' + CSS.escape(e.key.toLowerCase()) + '"]');
    if (at) { e.preventDefault(); at.click(); }
  });

  document.addEventListener("click", (e) => {
    const to = e.target.closest && e.target.closest('a[href^="#w"]');
    const said = document.getElementById("said");
    if (to && said) said.open = true;
  });

  const gone = (is) => { const at = document.getElementById("gone"); if (at) at.hidden = !is; };
  for (const bad of ["htmx:error", "htmx:sendError", "htmx:send:error", "htmx:responseError"]) document.addEventListener(bad, () => gone(true));
  document.addEventListener("htmx:afterRequest", (e) => { if (e.detail && e.detail.successful) gone(false); });
  document.addEventListener("htmx:after:request", () => gone(false));
  const focus = () => { const at = document.getElementById("h-card"); if (at) at.focus(); };
  for (const done of ["htmx:afterSwap", "htmx:after:swap"]) document.addEventListener(done, focus);

  const drop = document.getElementById("drop");
  if (drop) {
    drop.addEventListener("dragover", (e) => e.preventDefault());
    drop.addEventListener("drop", (e) => { e.preventDefault(); drop.elements.files.files = e.dataTransfer.files; drop.requestSubmit(); });
  }
  begin();
})();
