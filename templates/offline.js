{# Where the site is served, a page that was read stays readable without a network, and can be
installed. Opened as a file it needs none of this, and does none of it. #}
"use strict";
const offline = (script) => {
  const workers = navigator.serviceWorker;
  if (!location.protocol.startsWith("http") || !workers) return;
  const site = new URL("../", script.src);
  const manifest = document.createElement("link");
  manifest.rel = "manifest";
  manifest.href = new URL("manifest.webmanifest", site);
  document.head.append(manifest);
  workers.register(new URL("worker.js", site)).then(
    async () => {
      const { active } = await workers.ready;
      const parts = all("script[src], link[rel=stylesheet], link[rel=manifest], img[src]");
      const page = location.href.split("#")[0];
      active.postMessage([page, new URL("index.html", site).href, ...parts.map((one) => one.src || one.href)]);
    },
    () => {}, // a browser may bar it; the page is as good
  );
};
offline(document.currentScript);
