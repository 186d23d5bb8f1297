// remember.js: what the page remembers of its maker and this screen: remember("px-per-mm", "3.78"), recall("px-per-mm").
//
// The address has another port each time listel is started, and storage belongs to an address with its port. A cookie belongs to the
// machine alone, so it is asked first; the server has no use for it.

const year = 365 * 24 * 3600; // seconds

export function remember(key, value) {
  localStorage.setItem(`listel:${key}`, value);
  document.cookie = `listel-${key}=${encodeURIComponent(value)}; path=/; max-age=${year}; samesite=strict`;
}

export function recall(key) {
  const cookie = document.cookie.split("; ").find((c) => c.startsWith(`listel-${key}=`));
  return cookie ? decodeURIComponent(cookie.slice(key.length + 8)) : localStorage.getItem(`listel:${key}`);
}
