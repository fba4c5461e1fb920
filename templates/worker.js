{# Keeps what was read of the site. With a network the newest comes first, so that no figure is older
than it need be; where that takes too long or fails, what was kept stands in. #}
"use strict";
const KEPT = "airspeed-cards";
const LATE = 4000; // ms

const keep = async (request, answer) => {
  if (answer.status === 200) await (await caches.open(KEPT)).put(request, answer.clone());
  return answer;
};

const answered = async (request) => {
  const kept = await caches.match(request, { ignoreSearch: true });
  const fresh = fetch(request).then((answer) => keep(request, answer));
  if (!kept) return fresh;
  const late = new Promise((done) => {
    setTimeout(done, LATE, kept);
  });
  return Promise.race([fresh.catch(() => kept), late]);
};

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));
addEventListener("message", (event) => {
  const all = event.data.map(async (url) => keep(url, await fetch(url)));
  event.waitUntil(Promise.allSettled(all));
});
addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method === "GET" && request.url.startsWith(location.origin)) event.respondWith(answered(request));
});
