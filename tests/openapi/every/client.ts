// Asks a running service with the client that @hey-api/openapi-ts made of its description: a plain answer, a range,
// backwards, JSON, a list, a refusal, a batch. Compiled strictly.
import { client } from "../.work/hey/client.gen.js";
import { batch, drillPoint, drillPointPost, spindleSpeed } from "../.work/hey/sdk.gen.js";
import type { DrillPointRequest } from "../.work/hey/types.gen.js";

declare const process: { argv: string[] };
client.setConfig({ baseUrl: process.argv[2] ?? "http://127.0.0.1:8080" });

function check(holds: boolean, says: string): asserts holds {
  if (!holds) throw new Error(says);
}

function near(value: number | undefined, wanted: number): void {
  check(value !== undefined && Math.abs(value - wanted) < 5e-5 * Math.max(1, Math.abs(wanted)), `${value}, not ${wanted}`);
}

// 0.25 in / tan 59 deg = 0.1502 in.
const point = await drillPoint({ query: { diameter: "1/2 in", point_angle: "118 deg" }, throwOnError: true });
near(point.data.result?.point_length.value, 0.1502);
check(point.data.calculator === "holes/drill-point" && point.data.rows === undefined, JSON.stringify(point.data));
const cases = await drillPoint({ query: { diameter: "1/4 in|1/2 in" }, throwOnError: true });
near(cases.data.rows?.[1]?.result?.point_length.value, 0.1502);
// 2 x 0.152 in x tan 59 deg = 0.5059 in.
const found = await drillPoint({ query: { solve_for: "diameter", wanted: "point_length:0.152 in" }, throwOnError: true });
near(found.data.roots?.[0]?.value.value, 0.5059);
const body: DrillPointRequest = { diameter: { value: 0.5, unit: "in" }, working: false };
const posted = await drillPointPost({ body, throwOnError: true });
near(posted.data.result?.point_length.value, 0.1502);
check(posted.data.working.length === 0, "the working is left out");
// 12 x 70 / (pi x 0.5) = 534.76 rpm; the step below is 450.
const speed = { cutting_speed: "70 ft/min", diameter: "0.5 in", available: ["450 rpm", "630 rpm"] };
const set = await spindleSpeed({ query: speed, throwOnError: true });
near(set.data.result?.exact_speed.value, 534.7606);
near(set.data.result?.spindle_speed?.value, 450);

const refused = await drillPoint({ query: { diameter: "0.5" } });
check(refused.error?.status === 422 && refused.error.errors[0]?.try === "0.5 in", JSON.stringify(refused.error));
const many = await batch({
  body: [{ calculator: "holes/drill-point", inputs: body }, { calculator: "holes/drill-point", inputs: { diameter: "0.5" } }],
  throwOnError: true,
});
check(typeof many.data !== "string", "an array is answered by an array");
check(many.data[0]?.answer !== undefined && many.data[1]?.problem?.status === 422, JSON.stringify(many.data));
console.log("the second TypeScript client was answered: cases, roots, JSON, a list, a refusal, a batch");
