/** Talking to the server: JSON there and back; what it refuses comes as a `Refused`. */

const PATIENCE = 12000;

/** The server did not do it, and said why. */
export class Refused extends Error {
  constructor(status, data) {
    super(data.words ?? "The server did not answer as expected.");
    Object.assign(this, { status, entry: data.error ?? "", data });
  }
}

/** The server was not reached. */
export class Offline extends Error {}

let token = "";
export const useToken = (value) => { token = value ?? ""; };

async function reach(method, address, body) {
  const headers = method === "GET" ? {} : { "Content-Type": "application/json", "X-Zonelib-Page": token };
  const options = { method, headers, credentials: "same-origin", cache: "no-store", signal: AbortSignal.timeout(PATIENCE) };
  if (body !== undefined) options.body = JSON.stringify(body);
  try {
    return await fetch(address, options);
  } catch {
    throw new Offline("The server was not reached.");
  }
}

export async function ask(method, address, body) {
  const answer = await reach(method, address, body);
  let data;
  try {
    data = await answer.json();
  } catch {
    throw new Offline("The server's answer did not arrive whole.");
  }
  if (!answer.ok) throw new Refused(answer.status, data);
  return data;
}
