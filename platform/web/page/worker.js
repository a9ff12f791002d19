// Keeps the whole app, so that it starts with no signal. A new version is fetched as a whole beside
// the old one and takes its place when no page of the old one is open any more.
const VERSION = "@VERSION@";
const FILES = @FILES@;
const CACHE = `curbcore-${VERSION}`;

self.addEventListener("install", (event) => {
    const fresh = FILES.map((file) => new Request(file, { cache: "reload" }));
    event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
    event.waitUntil((async () => {
        const names = await caches.keys();
        const old = names.filter((name) => name.startsWith("curbcore-") && name !== CACHE);
        await Promise.all(old.map((name) => caches.delete(name)));
        await self.clients.claim();
    })());
});

self.addEventListener("fetch", (event) => {
    if (event.request.method !== "GET" || new URL(event.request.url).origin !== self.location.origin) return;
    event.respondWith((async () => {
        const cache = await caches.open(CACHE);
        const kept = await cache.match(event.request, { ignoreSearch: true });
        return kept ?? fetch(event.request);
    })());
});
