// Everything a browser sends, seen from two places: by a proxy through which all of its connections
// go, whichever process makes them, and by DevTools on the page and on all its workers.
import {createServer, request as ask} from 'node:http';

// A proxy that passes on what is meant for `allowed` (host:port) and refuses the rest. `seen` grows:
// {method, url, bytes (of the body)}; a tunnel or a socket is of the method CONNECT or UPGRADE.
export async function proxy(allowed) {
  const seen = [];
  const note = (entry) => {
    seen.push(entry);
    return entry;
  };
  const server = createServer((incoming, outgoing) => {
    const entry = note({method: incoming.method, url: incoming.url, bytes: 0});
    incoming.on('data', (part) => { entry.bytes += part.length; });
    const refuse = () => outgoing.writeHead(403).end();
    if (!URL.canParse(incoming.url) || new URL(incoming.url).host !== allowed) return refuse();
    const onward = ask(incoming.url, {method: incoming.method, headers: incoming.headers}, (answer) => {
      outgoing.writeHead(answer.statusCode, answer.headers);
      answer.on('error', () => outgoing.destroy());
      answer.pipe(outgoing);
    });
    onward.on('error', () => (outgoing.headersSent ? outgoing.destroy() : refuse()));
    incoming.pipe(onward);
  });
  for (const [event, method] of [['connect', 'CONNECT'], ['upgrade', 'UPGRADE']]) {
    server.on(event, ({url}, socket) => {
      note({method, url, bytes: 0});
      socket.on('error', () => {});  // a browser that is closed does not wait for the answer
      socket.end('HTTP/1.1 403 Forbidden\r\n\r\n');
    });
  }
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  return {seen, address: `http://127.0.0.1:${server.address().port}`, stop: () => server.close()};
}

// DevTools' Network domain on a page and on every worker below it, workers' own workers too, from
// their first instruction. `seen` grows: {from, method, url, body}; `watched` counts targets by type.
export async function devtools(context, page) {
  const seen = [], watched = {page: 1};
  const session = await context.newCDPSession(page);
  let last = 0;
  // path: the sessions from the page down to the target.
  const send = (path, method, params = {}) => {
    const message = path.reduceRight((inner, sessionId) => ({
      method: 'Target.sendMessageToTarget',
      params: {sessionId, message: JSON.stringify({id: ++last, ...inner})},
    }), {method, params});
    return session.send(message.method, message.params).catch(() => {});  // a worker may have ended
  };
  const follow = (path) => Promise.all([
    send(path, 'Network.enable'),
    send(path, 'Target.setAutoAttach', {autoAttach: true, waitForDebuggerOnStart: true, flatten: false}),
  ]);
  const hear = async (path, from, {method, params}) => {
    if (method === 'Network.requestWillBeSent') {
      seen.push({from, method: params.request.method, url: params.request.url, body: params.request.hasPostData === true});
    } else if (method === 'Network.webSocketCreated' || method === 'Network.webTransportCreated') {
      seen.push({from, method: 'SOCKET', url: params.url, body: true});
    } else if (method === 'Target.attachedToTarget') {
      const {type} = params.targetInfo;
      watched[type] = (watched[type] ?? 0) + 1;
      const below = [...path, params.sessionId];
      await follow(below);
      await send(below, 'Runtime.runIfWaitingForDebugger');
    } else if (method === 'Target.receivedMessageFromTarget') {
      await hear([...path, params.sessionId], 'worker', JSON.parse(params.message));
    }
  };
  for (const method of ['Network.requestWillBeSent', 'Network.webSocketCreated', 'Network.webTransportCreated',
    'Target.attachedToTarget', 'Target.receivedMessageFromTarget']) {
    session.on(method, (params) => hear([], 'page', {method, params}));
  }
  await follow([]);
  return {seen, watched};
}
