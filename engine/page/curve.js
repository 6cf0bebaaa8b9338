// SPDX-License-Identifier: GPL-3.0-or-later
// One option at other airflows: a curve of its hours, and a slider along it.
import { make } from "./form.js";

const FLOWS = { us: [30, 50, 70, 90, 120, 150], si: [15, 25, 35, 45, 60, 75] };
const UNITS = { us: "cfm", si: "L/s" };
const WIDE = 320, HIGH = 150, LEFT = 44, DOWN = 26; // of the drawing
const whole = (x) => Math.round(x).toLocaleString("en-US");

function drawn(name, attributes, ...inside) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);

  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...inside);
  return element;
}

const LINES = [["too humid", "l0", ({ humid }) => humid], ["too dry", "l1", ({ dry }) => dry]];

function picture(points, unit) {
  const most = Math.max(100, ...points.flatMap(({ humid, dry }) => [humid, dry]));
  const span = points.at(-1).flow - points[0].flow;
  const x = ({ flow }) => LEFT + (flow - points[0].flow) / span * (WIDE - LEFT - 14);
  const y = (hours) => HIGH - DOWN - hours / most * (HIGH - DOWN - 22);
  const line = ([, css, of]) => drawn("path", { class: css,
    d: points.map((p, i) => `${i === 0 ? "M" : "L"}${x(p).toFixed(1)} ${y(of(p)).toFixed(1)}`).join("") });
  const words = (css, at, up, text) => drawn("text", { class: css, x: at, y: up }, text);

  return drawn("svg", { viewBox: `0 0 ${WIDE} ${HIGH}`, role: "img", "aria-label":
    `Hours a year by airflow: ${points.map((p) => `${p.flow} ${unit} ${whole(p.humid)} too humid, ${whole(p.dry)} too dry`).join("; ")}` },
  words("unit", 4, 12, "hours a year"), ...[0, most].map((hours) => words("up", LEFT - 6, y(hours) + 4, whole(hours))),
  drawn("path", { class: "zero", d: `M${LEFT} ${y(0)}H${WIDE - 14}` }), ...LINES.map(line),
  ...points.map((p) => words("along", x(p), HIGH - 8, String(p.flow))));
}

function shown(points, unit, take) {
  const told = make("output", {});
  const slider = make("input", { type: "range", min: 0, max: points.length - 1, step: 1, value: 0,
    "aria-label": `Airflow, ${unit}` });
  const button = make("button", { type: "button", onclick: () => take(`${points[slider.value].flow} ${unit}`) }, "");
  const move = () => {
    const { flow, humid, dry, co2 } = points[slider.value];
    const words = `${flow} ${unit}: ${whole(humid)} hours too humid, ${whole(dry)} too dry, CO2 ${whole(co2)} ppm`;

    told.textContent = words;
    slider.setAttribute("aria-valuetext", words);
    button.textContent = `Take ${flow} ${unit}`;
  };

  slider.addEventListener("input", move);
  move();
  return make("figure", { class: "curve" }, make("p", {}, `Full line too humid, dashed too dry; airflow in ${unit}. Of the likely house.`),
    picture(points, unit), slider, told, button);
}

// ask: the command's words to { code, out, err }; take: given an airflow.  Throws
// what the command says where the scenario has a fault.
export async function curve(name, si, ask, take) {
  const system = si ? "si" : "us", points = [];

  for (const flow of FLOWS[system]) {
    const { code, out, err } = await ask(["--quick", "--json", "--option", name, "--set",
      `options.${name}.ventilator.flow=${flow} ${UNITS[system]}`]);
    if (code !== 0) throw new Error(err.split("\n")[0].replace(/^dewledger: /, ""));
    const option = JSON.parse(out).options.find((one) => one.name === name);
    points.push({ flow, humid: option.hours.too_humid, dry: option.hours.too_dry, co2: option.co2_ppm.mean });
  }
  return shown(points, UNITS[system], take);
}
