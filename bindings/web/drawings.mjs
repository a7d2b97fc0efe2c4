// SPDX-License-Identifier: MIT
// Line drawings of our own: where the tape goes. Words stand in the picture, and are its name.

const ink = 'fill="none" stroke="currentColor" stroke-width="2"';
const tape = 'fill="none" stroke="currentColor" stroke-width="1.5" stroke-dasharray="5 3"';
const words = (x, y, text) => `<text x="${x}" y="${y}" font-size="12" fill="currentColor">${text}</text>`;
const tip = (x, y, way) => `<path ${ink} d="M${x - 4 * way} ${y - 4}L${x} ${y}L${x - 4 * way} ${y + 4}"/>`;
const across = (x1, x2, y) => `<path ${tape} d="M${x1} ${y}H${x2}"/>${tip(x1, y, -1)}${tip(x2, y, 1)}`;

const rows = {
  vehicle: ["Wheelbase: hub to hub, both sides, wheels straight",
    `<circle ${ink} cx="70" cy="90" r="26"/><circle ${ink} cx="230" cy="90" r="26"/>
    <path ${ink} d="M20 84V58l40-8 24-26h90l14 26h82v34h-14M96 90h108M20 84h24"/>
    ${across(70, 230, 128)}${words(108, 122, "hub to hub")}`],
  tyre: ["Rollout: chalk on tyre and floor, roll whole turns, tape between the marks",
    `<circle ${ink} cx="60" cy="70" r="44"/><circle ${ink} cx="60" cy="70" r="20"/>
    <path ${ink} d="M10 114H296M60 104v18M250 104v18"/><circle ${tape} cx="250" cy="70" r="44"/>
    ${across(60, 250, 132)}${words(118, 128, "whole turns")}`],
  disc: ["Pistons: count those on one side of the rotor. Radius: axle to middle of the pad",
    `<circle ${ink} cx="90" cy="72" r="60"/><circle ${ink} cx="90" cy="72" r="14"/>
    <path ${ink} d="M62 22q28-12 56 0l-6 20q-22-8-44 0z"/><path ${tape} d="M90 72V30"/>
    ${words(96, 56, "radius")}<path ${ink} d="M220 20v104M232 20v104M180 34h34v30h-34zM238 34h34v30h-34z"/>
    <path ${tape} d="M186 42h22v14h-22z"/>${words(168, 84, "count")}${words(168, 98, "this side")}`],
  pads: ["Pad outline: from the axle to its inner and to its outer edge, and the angle it spans",
    `<circle ${ink} cx="150" cy="128" r="6"/>
    <path ${ink} d="M88 60A92 92 0 0 1 212 60L186 88A54 54 0 0 0 114 88z"/>
    <path ${tape} d="M150 122V74M154 123L212 60M146 123L114 88"/>
    ${words(116, 116, "inner")}${words(192, 104, "outer")}${words(134, 20, "angle")}`],
  drum: ["Inside diameter of the drum; size stamped on the wheel cylinder",
    `<circle ${ink} cx="110" cy="72" r="62"/><circle ${ink} cx="110" cy="72" r="56"/>
    <path ${ink} d="M62 72a48 48 0 0 1 36-46M62 72a48 48 0 0 0 36 46M158 72a48 48 0 0 0-36-46M158 72a48 48 0 0 1-36 46M96 24h28v14h-28z"/>
    ${across(54, 166, 72)}${words(82, 66, "inside")}${words(186, 34, "cylinder")}`],
  lining: ["Lining: heel and toe as angles from the pivot, pivot to the middle of the drum",
    `<circle ${ink} cx="130" cy="70" r="60"/><path ${ink} d="M92 110a54 54 0 0 1 0-80l8 8a43 43 0 0 0 0 64z"/>
    <circle ${ink} cx="120" cy="118" r="4"/><path ${tape} d="M130 70L120 118M130 70L92 30M130 70L92 110"/>
    ${words(52, 22, "toe")}${words(40, 124, "heel")}${words(136, 104, "pivot")}`],
  lift: ["Hub to arch: from the middle of the wheel straight up to the lip, before and after",
    `<circle ${ink} cx="150" cy="92" r="38"/><circle ${ink} cx="150" cy="92" r="5"/>
    <path ${ink} d="M40 60h46q8-46 64-46t64 46h46M30 130H270"/><path ${tape} d="M150 87V14"/>
    ${tip(150, 14, 0)}${words(156, 46, "hub to arch")}`],
  tilt: ["Tilt: one axle up on stands, the other on a scale; chocked, nobody underneath",
    `<circle ${ink} cx="70" cy="98" r="22"/><circle ${ink} cx="222" cy="62" r="22"/>
    <path ${ink} d="M30 92l-4-28 176-42 60-4 4 30M92 90l108-26M46 120h48v8H46M212 84v44h20V84M20 130H280"/>
    <path ${tape} d="M96 98H250M262 98V62"/>${words(268, 84, "rise")}${words(52, 116, "scale")}`],
  drive: ["A bathroom scale on the pedal, a telephone fixed level: a helper reads, the driver drives",
    `<path ${ink} d="M60 20q6 50 40 84M70 112l60-16M66 122l64-16v-10M190 40h70v42h-70zM180 92h90"/>
    <path ${tape} d="M150 60H110"/>${words(70, 138, "scale on the pedal")}${words(196, 64, "telephone")}`],
  pedal: ["Pivot to the middle of the pad, pivot to the push rod: the ratio is one over the other",
    `<circle ${ink} cx="80" cy="22" r="6"/><path ${ink} d="M80 28q6 50 40 88M104 112l24-4M84 54h120"/>
    <path ${tape} d="M60 22V116M46 22V54"/>${words(16, 42, "rod")}${words(2, 106, "pad arm")}${words(150, 48, "push rod")}`],
  booster: ["Shell diameter of the booster; vacuum by a gauge at idle, in gear",
    `<path ${ink} d="M120 20h24q16 0 16 52t-16 52h-24q-16 0-16-52t16-52zM160 72h80M240 60h34v24h-34M104 72H60"/>
    <path ${tape} d="M84 20V124"/>${words(30, 60, "shell")}`],
  master: ["Bore: stamped on the cylinder, or by a gauge in the open end",
    `<path ${ink} d="M40 54h180v40H40zM70 54V36h40v18M140 54V36h40v18M220 64h20v20h-20"/>
    <path ${tape} d="M30 58v32"/>${words(4, 114, "bore")}`],
  scales: ["A scale under each wheel or axle: floor level, brakes off, as it is driven",
    `<circle ${ink} cx="70" cy="80" r="28"/><circle ${ink} cx="230" cy="80" r="28"/>
    <path ${ink} d="M40 112h60v10H40zM200 112h60v10h-60zM96 80h108"/>${words(46, 138, "front")}${words(208, 138, "rear")}`],
  parking: ["Pull on the parked vehicle, level and dry, until the wheels just turn",
    `<circle ${ink} cx="70" cy="90" r="26"/><circle ${ink} cx="170" cy="90" r="26"/><path ${ink} d="M30 84V50h180v34M96 90h48"/>
    <path ${tape} d="M210 74h70"/>${tip(280, 74, 1)}${words(222, 66, "pull")}`],
};

// The sections that have one.
export const drawn = Object.keys(rows);

// The drawing of a section, or nothing.
export function drawing(section) {
  const row = rows[section.split(".").at(-1)];
  if (!row) return "";
  return `<figure><svg viewBox="0 0 300 142" role="img" aria-label="${row[0]}">${row[1]}</svg>
    <figcaption>${row[0]}.</figcaption></figure>`;
}
