// @ts-check
/*
 * Light, dark and bright sun, one tap from anywhere. Runs before the page is painted, so that a
 * remembered theme does not flash; pressing the theme in force goes back to what the device asks for.
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

  apply(remembered());
  document.addEventListener("DOMContentLoaded", insert);
})();
