/** Servers for the tests, on loopback at ports of the system's choice. */

import { createServer, type Server } from 'node:http';
import { connect, type AddressInfo, type Socket } from 'node:net';
import { readFile } from 'node:fs/promises';
import { extname, join, normalize } from 'node:path';

const kinds: Record<string, string> = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8', '.svg': 'image/svg+xml', '.txt': 'text/plain',
  '.webmanifest': 'application/manifest+json',
};

async function listen(server: Server): Promise<number> {
  await new Promise<void>((settle) => { server.listen(0, '127.0.0.1', settle); });
  return (server.address() as AddressInfo).port;
}

export interface PageServer {
  address: string;
  /** All that was asked for, in order, since the last `forget`. */
  asked: string[];
  forget(): void;
  /** Another folder under the same address from now on. */
  serve(folder: string): void;
  /** Nothing answers at this address afterwards. */
  stop(): Promise<void>;
}

/** Hands out a folder as any simple web server would. */
export async function servePages(start: string): Promise<PageServer> {
  let folder = start;
  const asked: string[] = [];
  const sockets = new Set<Socket>();
  const server = createServer((request, response) => {
    const url = new URL(request.url ?? '/', 'http://localhost');
    asked.push(url.pathname);
    const path = normalize(decodeURIComponent(url.pathname)).replace(/\/$/, '/index.html');
    readFile(join(folder, path)).then((bytes) => {
      response.writeHead(200, {
        'Content-Type': kinds[extname(path)] ?? 'application/octet-stream' });
      response.end(bytes);
    }, () => {
      response.writeHead(404);
      response.end();
    });
  });
  server.on('connection', (socket: Socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
  });
  const port = await listen(server);
  return {
    address: `http://127.0.0.1:${port}/`,
    asked,
    forget() { asked.length = 0; },
    serve(other) { folder = other; },
    async stop() {
      if (!server.listening) return;
      const closed = new Promise<void>((settle) => { server.close(() => { settle(); }); });
      for (const socket of sockets) socket.destroy();
      await closed;
    },
  };
}

export interface Outside {
  port: number;
  /** Every address that a page tried to reach, but loopback. */
  asked: string[];
  stop(): Promise<void>;
}

/** Chromium asks for these of itself, whatever page it shows, and no switch stops
 * it: lists of extensions, accounts, hints for its own use. */
const chromiumsOwn = /^(https?:\/\/)?[a-z0-9.-]*\.?(google|googleapis|gstatic|gvt1)\.com[:/]/;

/** Stands for the rest of the world: a proxy that answers nothing and writes down
 * what it was asked for. */
export async function watchOutside(): Promise<Outside> {
  const asked: string[] = [];
  const note = (address = ''): void => {
    if (!chromiumsOwn.test(address)) asked.push(address);
  };
  const server = createServer((request, response) => {
    note(request.url);
    response.writeHead(502);
    response.end();
  });
  server.on('connect', (request, socket) => {
    note(request.url);
    socket.end('HTTP/1.1 502 No\r\n\r\n');
  });
  const port = await listen(server);
  return { port, asked, stop: async () => {
    server.closeAllConnections();
    await new Promise<void>((settle) => { server.close(() => { settle(); }); });
  } };
}

/** Whether anything listens there. */
export async function answers(address: string): Promise<boolean> {
  const { hostname, port } = new URL(address);
  return new Promise((settle) => {
    const socket = connect(Number(port), hostname);
    socket.on('connect', () => { socket.destroy(); settle(true); });
    socket.on('error', () => { settle(false); });
  });
}
