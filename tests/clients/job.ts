// A full job with the types that openapi-typescript makes from the document; compiled strictly, then run.
//   npx openapi-typescript wallwright.json -o wallwright.d.ts && npx tsc -p . && node made/job.js http://127.0.0.1:8137
import type { components, paths } from "./wallwright.js";

type Posted = { [P in keyof paths]: paths[P] extends { post: { requestBody: { content: { "application/json": infer B } } } } ? B : never };
type Answered = {
  [P in keyof paths]: paths[P] extends { post: { responses: { 200: { content: { "application/json": infer A } } } } } ? A : never;
};
type Problem = components["schemas"]["Problem"];

const base = process.argv[2] ?? "http://127.0.0.1:8137";

function must(holds: boolean, what: string): asserts holds {
  if (!holds) throw new Error(what);
}

async function post<P extends keyof paths>(path: P, body: Posted[P]): Promise<Answered[P] | Problem> {
  const answer = await fetch(base + path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
  return (await answer.json()) as Answered[P] | Problem;
}

const whole = await post("/v1/building", {
  units: "mm",
  name: "boat store",
  footprint: { width: 4800, depth: "3.6 m" },
  wall_height: 2400,
  walls: { front: { openings: [{ name: "door", left: 1000, width: 900, height: 2050 }] } },
});
must("walls" in whole, JSON.stringify(whole));
for (const built of whole.walls) {
  const framed = await post("/v1/layout", built.wall);
  must("members" in framed && framed.members.length > 10, "no members");
  const tapes: string[] = framed.cut_list.map((row) => row.tape);
  must(tapes.length > 0, "no cut list");
  const skinned = await post("/v1/sheathing", framed.wall);
  must("pieces" in skinned && skinned.pieces.length > 0, "no pieces");
}
const refused = await post("/v1/layout", { units: "in", length: 2, height: 96 });
must("status" in refused && refused.status === 422 && refused.errors?.[0]?.pointer === "/length", JSON.stringify(refused));
console.log("typescript client: a building, four walls laid out and skinned, a refusal: all typed");
