// Hands out the page's folder from this machine, and can be stopped to play "no signal".
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize } from "node:path";

const KINDS = {
    ".css": "text/css", ".html": "text/html", ".js": "text/javascript", ".png": "image/png",
    ".svg": "image/svg+xml", ".wasm": "application/wasm", ".webmanifest": "application/manifest+json",
};

export async function serve(folder, port = 0) {
    const server = createServer(async (request, response) => {
        const path = normalize(new URL(request.url, "http://here").pathname).replace(/\/$/, "/index.html");
        try {
            const bytes = await readFile(join(folder, path));
            response.writeHead(200, { "Content-Type": KINDS[extname(path)] ?? "application/octet-stream" });
            response.end(bytes);
        } catch {
            response.writeHead(404);
            response.end();
        }
    });
    await new Promise((done) => server.listen(port, "127.0.0.1", done));
    // A test that failed half-way keeps nothing running.
    server.unref();
    return {
        address: `http://localhost:${server.address().port}/`,
        stop: () => new Promise((done) => {
            server.close(done);
            server.closeAllConnections();
        }),
    };
}
