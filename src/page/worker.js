// Keeps what was read on this device, so that it can be read again without a connection. It never makes
// up an answer: what is not kept is said to be missing.
'use strict';

const CACHE = 'CACHE_NAME';
const SHELL = SHELL_FILES;
const MOST = 150;
const PATIENCE = 6000;

const exact = { ignoreVary: true };
const isPage = (url) => url.pathname === '/' || /^\/(?!v1\/|docs|assets\/)[a-z-]+(\/[a-z-]+)?$/.test(url.pathname);
const asKept = (address) => {
  const url = new URL(address, self.location.origin);
  url.hash = '';
  return url;
};

self.addEventListener('install', (event) => {
  const fill = async () => (await caches.open(CACHE)).addAll([...SHELL, '/', '/offline']);
  event.waitUntil(fill().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  // The cache before this one stays: its answers are still worth reading.
  const tidy = async () => {
    const own = (await caches.keys()).filter((name) => name.startsWith('pages-') && name !== CACHE);
    await Promise.all(own.slice(0, -1).map((name) => caches.delete(name)));
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

const keep = async (address, response) => {
  const cache = await caches.open(CACHE);
  await cache.put(address, response);
  const pages = (await cache.keys()).filter((request) => {
    const { pathname, search } = new URL(request.url);
    return !SHELL.includes(pathname) && pathname !== '/offline' && !(pathname === '/' && !search);
  });
  await Promise.all(pages.slice(0, Math.max(0, pages.length - MOST)).map((request) => cache.delete(request)));
};

const kept = async (address) => {
  const cache = await caches.open(CACHE);
  return (await cache.match(address, exact)) || caches.match(address, exact);
};

const fromNetwork = (request) => {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), PATIENCE);
  return fetch(request, { signal: stop.signal }).finally(() => clearTimeout(timer));
};

const page = async (request) => {
  const url = asKept(request.url);
  try {
    const response = await fromNetwork(request);
    const html = (response.headers.get('content-type') || '').startsWith('text/html');
    if (response.ok && html && !url.searchParams.has('find')) await keep(url, response.clone());
    return response;
  } catch {
    const found = (await kept(url)) || (url.pathname === '/' && (await kept('/')));
    if (found) return found;
    const missing = await kept('/offline');
    const { headers } = missing;
    return new Response(missing.body, { status: 503, statusText: 'Not connected', headers });
  }
};

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (SHELL.includes(url.pathname)) {
    event.respondWith(kept(url).then((found) => found || fetch(request)));
  } else if (url.pathname.startsWith('/assets/')) {
    // A page of the version before asks for the files of its own version.
    event.respondWith(caches.match(url, exact).then((found) => found || fetch(request)));
  } else if (request.mode === 'navigate' && isPage(url)) {
    event.respondWith(page(request));
  }
});

// A page that answered as one typed, to be kept under the address it now has.
self.addEventListener('message', (event) => {
  const { keep: address } = event.data || {};
  if (!address) return;
  const url = asKept(address);
  if (url.origin !== self.location.origin || !isPage(url)) return;
  const fetched = fetch(url, { headers: { accept: 'text/html' } }).then((response) => response.ok && keep(url, response));
  event.waitUntil(fetched.catch(() => {}));
});
