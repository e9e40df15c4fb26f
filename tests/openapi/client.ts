// Asks a running service with the client that openapi-typescript and openapi-fetch make of its
// description. Compiled strictly: a wrong name or type in here does not compile.
import createClient from "openapi-fetch";
import type { components, paths } from "./.work/api.js";

declare const process: { argv: string[] };

const base = process.argv[2] ?? "http://127.0.0.1:8080";
const client = createClient<paths>({
  baseUrl: base,
  // Lists are parted by commas; the service also takes the library's own way, item by item. The fields of a form are
  // query parameters by themselves.
  querySerializer: { array: { style: "form", explode: false }, object: { style: "form", explode: true } },
});

function check(holds: boolean, says: string): asserts holds {
  if (!holds) throw new Error(says);
}

function near(value: number | undefined, wanted: number): void {
  check(value !== undefined && Math.abs(value - wanted) < 5e-5 * Math.max(1, Math.abs(wanted)), `${value}, not ${wanted}`);
}

/** The data of an answer; the promise's type says which. */
async function answered<T>(call: Promise<{ data?: T; error?: unknown; response: Response }>): Promise<T> {
  const { data, error, response } = await call;
  check(data !== undefined, `${response.url}: ${JSON.stringify(error)}`);
  return data;
}

/** An answer of the kind that has `what`. */
function kind<What extends keyof T, T extends object>(what: What, answer: T): T & { [name in What]-?: Exclude<T[name], undefined> } {
  check(what in answer, `${Object.keys(answer)} has no ${String(what)}`);
  return answer as T & { [name in What]-?: Exclude<T[name], undefined> };
}

async function found<T extends { result?: unknown }>(call: Promise<{ data?: T; error?: unknown; response: Response }>) {
  return kind("result", await answered(call));
}

const { calculators } = await answered(client.GET("/v1/calculators"));
check(calculators.length >= 8, `${calculators.length} calculators`);
for (const entry of calculators) {
  const first = entry.examples[0];
  check(first !== undefined, `${entry.id} has no example`);
  const path = `/v1/${entry.id}` as keyof paths & `/v1/${string}/${string}`;
  const query = first.inputs as never;
  const answer = await answered(client.GET(path as "/v1/holes/drill-point", { params: { query } }));
  check(answer.calculator === entry.id && "result" in answer, entry.id);
}

const point = await found(
  // 0.25 in / tan 59 deg = 0.1502 in.
  client.GET("/v1/holes/drill-point", {
    params: { query: { diameter: "1/2 in", point_angle: "118 deg", full_depth: "3/4 in", zeroed_at: "lips" } },
  }),
);
near(point.result.point_length.value, 0.1502);
check(point.result.point_length.text === "0.1502 in", "the text is rounded as the trade writes it");
near(point.result.travel?.value, 0.75);
const body: components["schemas"]["DrillPointRequest"] = {
  diameter: { value: 0.5, unit: "in" },
  point_angle: "118 deg",
  working: false,
};
const posted = await found(client.POST("/v1/holes/drill-point", { body }));
check(posted.result.point_length.value === point.result.point_length.value && posted.working.length === 0, "POST answers as GET");

// Chord 21, height 6: radius (10.5^2 + 6^2) / 12 = 12.1875.
const arc = await found(client.GET("/v1/geometry/arc", { params: { query: { chord: "21 mm", height: "6 mm" } } }));
near(arc.result.solutions[0]?.radius.value, 12.1875);
const circle = await found(client.GET("/v1/patterns/bolt-circle", { params: { query: { diameter: "4 in", holes: 6, only: [2, 4] } } }));
near(circle.result.positions[0]?.y.value, Math.sqrt(3));
// 0.25 in - 1.299038 x 0.05 in x 75 % = 0.2013 in.
const tap = await found(
  client.GET("/v1/holes/tap-drill", { params: { query: { thread: "1/4-20 UNC", thread_percent: "75 percent", tap: "cutting" } } }),
);
near(tap.result.drill_diameter.value, 0.2013);
// 12 x 70 / (pi x 0.5) = 534.76 rpm; the step below is 450.
const speed = { cutting_speed: "70 ft/min", diameter: "0.5 in", available: ["450 rpm", "630 rpm"] };
const joined = await found(client.GET("/v1/speeds/spindle-speed", { params: { query: speed } }));
const one_by_one = await found(
  client.GET("/v1/speeds/spindle-speed", { params: { query: speed }, querySerializer: { array: { style: "form", explode: true } } }),
);
near(joined.result.exact_speed.value, 534.7606);
check(joined.result.spindle_speed?.value === 450, "the step below the exact speed is chosen");
check(JSON.stringify(joined) === JSON.stringify(one_by_one), "a list may be stated either way");
// ISO 68-1: M8 has a pitch of 1.25 mm.
const thread = await found(client.GET("/v1/threads/thread", { params: { query: { designation: "M8" } } }));
near(thread.result.pitch.value, 1.25);

const cases = kind("rows", await answered(client.GET("/v1/holes/drill-point", { params: { query: { diameter: "1/4 in|1/2 in" } } })));
near(cases.rows[1]?.result?.point_length.value, 0.1502);
// Backwards: what is to be found is not stated, and the types let it be left out.
const sought = await answered(
  client.GET("/v1/holes/drill-point", { params: { query: { solve_for: "diameter", wanted: "point_length:0.152 in" } } }),
);
// 2 x 0.152 in x tan 59 deg = 0.5059 in.
near(kind("roots", sought).roots[0]?.value.value, 0.5059);
const roots = await answered(
  client.GET("/v1/holes/drill-point", { params: { query: { diameter: "1/2 in", solve_for: "point_angle", wanted: "point_length:0.25 in" } } }),
);
near(kind("roots", roots).roots[0]?.value.value, 90);
const measured = await found(
  client.GET("/v1/holes/drill-point", {
    params: { query: { diameter: "1/2 in", measured: "point_length:0.152 in", correct: "diameter" } },
  }),
);
near(measured.correction?.as_made.value, 0.5059);

const batch: components["schemas"]["BatchItem"][] = [
  { id: "A1", calculator: "holes/drill-point", inputs: { diameter: "1/2 in" }, working: false },
  { id: "A2", calculator: "holes/drill-point", inputs: { diameter: "0.5" } },
];
const many = await answered(client.POST("/v1/batch", { body: batch }));
// Text is what lines of JSON would be.
check(typeof many !== "string", "an array is answered by an array");
const [first, second] = many;
check(first?.answer?.calculator === "holes/drill-point" && first.id === "A1", "the first of the batch is answered");
check(second?.problem?.status === 422 && second.answer === undefined, "the second is refused in its place");

const cell = await answered(
  client.GET("/v1/holes/{calculator}.txt", {
    params: {
      path: { calculator: "drill-point" },
      query: { fields: { diameter: "1/2 in" }, pick: "point_length", units: "inch", digits: "shop" },
    },
    parseAs: "text",
  }),
);
check(cell === "0.1502", cell);
const rows = await answered(
  client.GET("/v1/patterns/{calculator}.csv", {
    params: { path: { calculator: "bolt-circle" }, query: { fields: { diameter: "4 in", holes: "6" } } },
    parseAs: "text",
  }),
);
check(rows.startsWith("number,x [in],") && rows.trim().split("\r\n").length === 7, rows);
const drills = await answered(client.GET("/v1/tables/{name}", { params: { path: { name: "drills_inch" } } }));
check(drills.rows.length > 100 && drills.columns.includes("diameter"), "the table of drills");

const { error, response } = await client.GET("/v1/holes/drill-point", { params: { query: { diameter: "0.5" } } });
check(response.status === 422 && error !== undefined, "a bare number is refused");
const wrong = error.errors[0];
check(wrong?.field === "/diameter" && wrong.code === "unit_missing" && wrong.try === "0.5 in", JSON.stringify(error));

console.log(`the TypeScript client was answered: ${calculators.length} calculators, cells, tables, cases, roots, a correction, a batch, a refusal`);
