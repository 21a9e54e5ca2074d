// @ts-check
/*
 * A handbook on a web host of this machine, for what a device keeps of it: the host can go away and come back, hand
 * out another release, lack files, spoil them, and fall silent in the middle.
 */
"use strict";

const fs = require("node:fs");
const http = require("node:http");
const path = require("node:path");

/** @type {Record<string, string>} */
const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".webmanifest": "application/manifest+json",
};

class Host {
  /** @param {string} folder */
  constructor(folder) {
    this.folder = folder;
    /** Paths that the host does not give. @type {Set<string>} */
    this.lacks = new Set();
    /** Paths that it gives with a byte changed. @type {Set<string>} */
    this.spoils = new Set();
    /** Paths that were asked for. @type {string[]} */
    this.asked = [];
    /** So many more files are given; then it answers nothing any more. */
    this.gives = Infinity;
    this.port = 0;
    this.server = this.make();
  }

  make() {
    return http.createServer((request, response) => {
      const { pathname } = new URL(request.url ?? "/", "http://host");
      const name = decodeURIComponent(pathname).slice(1) || "index.html";
      const file = path.join(this.folder, name);
      this.asked.push(name);
      if (name !== "offline.js" && (this.gives -= 1) < 0) {
        return;
      }
      if (this.lacks.has(name) || !file.startsWith(this.folder + path.sep) || !fs.existsSync(file)) {
        response.writeHead(404).end();
        return;
      }
      const bytes = fs.readFileSync(file);
      if (this.spoils.has(name)) {
        bytes[bytes.length - 2] = 0x20 ^ (bytes[bytes.length - 2] ?? 0);
      }
      response.writeHead(200, { "content-type": TYPES[path.extname(file)] ?? "application/octet-stream", "cache-control": "no-cache" });
      response.end(bytes);
    });
  }

  /** Opens the host, at the same port as before. @returns {Promise<void>} */
  open() {
    this.server = this.make();
    return new Promise((resolve) => {
      this.server.listen(this.port, "127.0.0.1", () => {
        const address = this.server.address();
        this.port = typeof address === "object" && address ? address.port : 0;
        resolve();
      });
    });
  }

  /** @returns {Promise<void>} */
  close() {
    return new Promise((resolve) => {
      this.server.close(() => resolve());
      this.server.closeAllConnections();
    });
  }

  /** @param {string} page */
  at(page) {
    return `http://127.0.0.1:${this.port}/${page}`;
  }
}

module.exports = { Host };
