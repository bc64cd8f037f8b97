// Hears that the job of this page has grown, while the page is in sight: a browser opens few connections.

let source, path, again, hear, up;

// `heard` is told each position, `open` that the bench answers.
export function listen(at, heard, open) {
  [hear, up] = [heard, open];
  if (at === path && source && source.readyState !== EventSource.CLOSED) return;
  path = at;
  connect();
}

function connect() {
  clearTimeout(again);
  source?.close();
  source = null;
  if (!path || document.hidden) return;
  source = new EventSource(path);
  source.onopen = () => up();
  source.onmessage = (event) => hear(Number(event.data));
  // A connection that broke is tried again by the browser, a refused one is not.
  source.onerror = ({ target }) => {
    if (target === source && target.readyState === EventSource.CLOSED) again = setTimeout(connect, 30_000);
  };
}

document.addEventListener("visibilitychange", connect);
addEventListener("pagehide", () => source?.close());
addEventListener("pageshow", (event) => event.persisted && connect());
