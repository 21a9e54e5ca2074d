// @ts-check
/*
 * Light, dark and bright sun, one tap from anywhere. Runs before the page is painted, so that a
 * remembered theme does not flash; pressing the theme in force goes back to what the device asks for.
 * For the same reason it is here that the page learns that scripts run ("data-scripts"), and keeps room for
 * what they bring.
 * Storage may be denied: then the choice lasts as long as the page.
 */
(() => {
  "use strict";
  const KEY = "baybook.theme";
  /** @type {[string, string][]} */
  const THEMES = [
    ["light", "Light"],
    ["dark", "Dark"],
    ["sun", "Sun"],
  ];
  const root = document.documentElement;

  /** @returns {string | null} the remembered theme, if it is one we know */
  function remembered() {
    try {
      const theme = localStorage.getItem(KEY);
      return THEMES.some(([name]) => name === theme) ? theme : null;
    } catch {
      return null;
    }
  }

  /** @param {string | null} theme */
  function remember(theme) {
    try {
      if (theme) {
        localStorage.setItem(KEY, theme);
      } else {
        localStorage.removeItem(KEY);
      }
    } catch {
      // Denied: nothing is remembered, everything else works.
    }
  }

  /** @param {string | null} theme */
  function apply(theme) {
    if (theme) {
      root.dataset.theme = theme;
    } else {
      delete root.dataset.theme;
    }
    for (const button of document.querySelectorAll(".themes button")) {
      button.setAttribute("aria-pressed", String(button.getAttribute("data-theme-name") === theme));
    }
  }

  function insert() {
    const group = document.createElement("div");
    group.className = "themes";
    group.setAttribute("role", "group");
    group.setAttribute("aria-label", "Theme");
    for (const [name, label] of THEMES) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = label;
      button.setAttribute("data-theme-name", name);
      button.addEventListener("click", () => {
        const next = root.dataset.theme === name ? null : name;
        remember(next);
        apply(next);
      });
      group.append(button);
    }
    document.querySelector(".bench")?.append(group);
    apply(remembered());
  }

  root.dataset.scripts = "";
  apply(remembered());
  // The faces are asked for before there is a letter to set, so that no line breaks anew when they come.
  ["400", "700"].forEach((weight) => document.fonts.load(`${weight} 1rem B612`).catch(() => undefined));
  // The switch stands as soon as the head of the page does, before anything below it is seen.
  const head = new MutationObserver(() => {
    if (document.querySelector(".bench + *")) {
      head.disconnect();
      insert();
    }
  });
  head.observe(document, { childList: true, subtree: true });
})();
