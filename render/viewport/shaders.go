//go:build js && wasm

package viewport

// solidVertex draws the triangles of a mesh and, grown along Outward by Grow
// px, its outline. One program for both: g3n points a buffer's attributes at
// the first program that draws it, so that program has to use them all.
const solidVertex = `#version 300 es
precision highp float;
precision highp int;
layout(location=0) in vec3 Position;
layout(location=1) in vec3 Normal;
layout(location=2) in vec3 Outward;
layout(location=3) in vec4 Colour;
layout(location=4) in float Piece;
uniform mat4 Clip;
uniform mat4 View;
uniform mat4 Model;
uniform vec2 Screen;
uniform float Grow;
uniform float Behind;
uniform float Hot;
uniform float Hidden;
uniform vec4 Wear;
uniform highp sampler2D Wears;
out vec3 vWorld;
out vec3 vNormal;
out vec3 vColour;
flat out vec4 vWear;
flat out int vHatch;
void main() {
  vec4 world = Model * vec4(Position, 1.0);
  vWorld = world.xyz;
  vNormal = mat3(Model) * Normal;
  vColour = Colour.rgb;
  int id = int(Piece + 0.5);
  vec4 wear = Wear;
  if (Wear.w < 0.5) {
    wear = texelFetch(Wears, ivec2(id & 255, id >> 8), 0);
    wear.w = abs(Piece - Hot) < 0.5 && Hot > 0.5 ? 1.0 : 0.0;
  } else {
    wear.w = 0.0;
  }
  vWear = wear;
  int hatch = int(wear.z * 255.0 + 0.5);
  vHatch = hatch > 0 ? hatch : int(Colour.a + 0.5);
  // The outline stands a little behind what it goes round, or it would show
  // through thin walls.
  vec3 back = vec3(View[0][2], View[1][2], View[2][2]);
  vec4 clip = Clip * world;
  if (Grow > 0.0) {
    vec4 behind = Clip * vec4(world.xyz - Behind * back, 1.0);
    clip.z = behind.z / behind.w * clip.w;
    vec3 n = mat3(View) * (mat3(Model) * Outward);
    float l = length(n.xy);
    float px = wear.x > 0.5 || wear.w > 0.5 ? Grow * 1.6 : Grow;
    clip.xy += n.xy / max(l, 0.4) * px * 2.0 / Screen * clip.w;
  }
  if (Hidden > 0.5 && abs(Piece - Hidden) < 0.5 && Wear.w < 0.5) {
    clip = vec4(2.0, 2.0, 2.0, 1.0);
  }
  gl_Position = clip;
}`

// solidFragment lights the ware and draws its hatch in px of the screen, so
// that hatch has one size at any distance.
const solidFragment = `#version 300 es
precision highp float;
precision highp int;
in vec3 vWorld;
in vec3 vNormal;
in vec3 vColour;
flat in vec4 vWear;
flat in int vHatch;
uniform mat4 View;
uniform float Grow;
uniform float Pixel;
uniform float Fade;
uniform vec4 Cut;
uniform float Cutting;
uniform vec3 Ground;
uniform vec3 Ink;
uniform vec3 Held;
uniform vec3 Watch;
uniform vec3 Problem;
uniform vec3 Section;
uniform vec4 Strength;
uniform vec3 KeyAt;
uniform vec3 FillAt;
uniform vec3 Warm;
out vec4 Paint;

float stripe(float at, float apart, float wide) {
  float d = abs(fract(at / apart) - 0.5) * apart;
  return 1.0 - smoothstep(wide * 0.5 - 0.5, wide * 0.5 + 0.5, d);
}

vec4 hatched(int kind, vec2 p) {
  float up = (p.x - p.y) * 0.70710678;
  float down = (p.x + p.y) * 0.70710678;
  if (kind == 1) return vec4(Watch, stripe(up, 8.0, 1.8));
  if (kind == 2) return vec4(Problem, stripe(up, 5.0, 1.8));
  if (kind == 3) return vec4(Ink, 0.8 * stripe(up, 9.0, 1.2));
  if (kind == 4) return vec4(Ink, 0.8 * stripe(down, 9.0, 1.2));
  if (kind == 5) return vec4(Ink, 0.8 * stripe(p.y, 8.0, 1.2));
  if (kind == 6) return vec4(Ink, 0.8 * stripe(p.x, 8.0, 1.2));
  if (kind == 7) return vec4(Ink, 0.8 * max(stripe(up, 11.0, 1.2), stripe(down, 11.0, 1.2)));
  if (kind == 8) {
    vec2 c = (fract(p / 8.0) - 0.5) * 8.0;
    return vec4(Ink, 0.8 * (1.0 - smoothstep(1.0, 2.0, length(c))));
  }
  float row = floor(p.y / 9.0);
  float dash = step(0.45, fract(p.x / 13.0 + 0.5 * mod(row, 2.0)));
  return vec4(Ink, 0.8 * dash * stripe(p.y, 9.0, 1.2));
}

void main() {
  if (Cutting > 0.5 && dot(Cut.xyz, vWorld) > Cut.w) discard;
  vec2 p = gl_FragCoord.xy * Pixel;
  vec3 c;
  if (Grow > 0.0) {
    c = vWear.x > 0.5 || vWear.w > 0.5 ? Held : Ink;
    c = mix(c, Ground, 0.55 * vWear.y);
    Paint = vec4(c, 1.0);
    return;
  }
  if (!gl_FrontFacing) {
    c = mix(Section, vColour, 0.45);
    c = mix(c, Section * 0.72, stripe((p.x - p.y) * 0.70710678, 7.0, 1.0));
    Paint = vec4(c, 1.0);
    return;
  }
  vec3 n = normalize(vNormal);
  vec3 e = mat3(View) * n;
  float key = Strength.z * max(dot(e, KeyAt), 0.0);
  float light = mix(Strength.y, Strength.x, n.z * 0.5 + 0.5) + Strength.w * max(dot(e, FillAt), 0.0);
  vec3 lit = vec3(light) + key * Warm;
  vec3 base = vColour;
  if (vWear.x > 0.5) {
    base = Held;
    lit = mix(vec3(1.0), lit * 1.06, 0.85);
  }
  c = base * lit;
  if (vHatch > 0 && vWear.x < 0.5) {
    if (vHatch < 3) c = mix(c, vec3(1.0, 0.97, 0.9) * c * 1.06, 0.6);
    vec4 h = hatched(vHatch, p);
    c = mix(c, h.rgb, h.a);
  }
  if (vWear.w > 0.5) c = mix(c, Held, vWear.x > 0.5 ? 0.0 : 0.16);
  c = mix(c, Ground, 0.62 * vWear.y);
  Paint = vec4(c, Fade);
}`

// lineVertex lays a quadrilateral of even width on the screen over a line. It
// leaves w at 1, so that what it hands on runs evenly across the screen.
const lineVertex = `#version 300 es
precision highp float;
precision highp int;
layout(location=0) in vec3 From;
layout(location=1) in vec3 To;
layout(location=2) in vec2 Corner;
layout(location=3) in vec3 Colour;
layout(location=4) in vec3 Stroke;
layout(location=5) in float Piece;
uniform mat4 Clip;
uniform mat4 Model;
uniform vec2 Screen;
uniform vec3 Toward;
uniform float Strong;
uniform float Hidden;
uniform vec4 Paint;
uniform highp sampler2D Wears;
out vec2 vAt;
out vec3 vWorld;
flat out float vLong;
flat out vec3 vStroke;
flat out vec4 vColour;
void main() {
  vec4 wa = Model * vec4(From, 1.0), wb = Model * vec4(To, 1.0);
  vec4 a = Clip * vec4(wa.xyz + Toward, 1.0), b = Clip * vec4(wb.xyz + Toward, 1.0);
  float least = 0.5;
  bool gone = a.w < least && b.w < least;
  if (a.w < least && !gone) { float t = (least - a.w) / (b.w - a.w); a = mix(a, b, t); wa = mix(wa, wb, t); }
  if (b.w < least && !gone) { float t = (least - b.w) / (a.w - b.w); b = mix(b, a, t); wb = mix(wb, wa, t); }
  if (Hidden > 0.5 && abs(Piece - Hidden) < 0.5) gone = true;
  int id = int(Piece + 0.5);
  float dim = Piece > 0.5 ? texelFetch(Wears, ivec2(id & 255, id >> 8), 0).y : 0.0;
  vec3 na = a.xyz / a.w, nb = b.xyz / b.w;
  vec2 half2 = Screen * 0.5;
  vec2 way = (nb.xy - na.xy) * half2;
  float reach = length(way);
  vec2 u = reach > 1e-3 ? way / reach : vec2(1.0, 0.0);
  vec2 across = vec2(-u.y, u.x);
  float out_ = Stroke.x * 0.5 + 1.0;
  float along = Corner.x < 0.5 ? -out_ : reach + out_;
  vec3 n = Corner.x < 0.5 ? na : nb;
  vec2 px = u * (Corner.x < 0.5 ? -out_ : out_) + across * Corner.y * out_;
  n.xy += px / half2;
  vAt = vec2(along, Corner.y * out_);
  vLong = reach;
  vStroke = Stroke;
  vColour = vec4(mix(Colour, Paint.rgb, Paint.w), Strong * (1.0 - 0.7 * dim));
  vWorld = (Corner.x < 0.5 ? wa : wb).xyz;
  gl_Position = gone ? vec4(2.0, 2.0, 2.0, 1.0) : vec4(n, 1.0);
}`

const lineFragment = `#version 300 es
precision highp float;
in vec2 vAt;
in vec3 vWorld;
flat in float vLong;
flat in vec3 vStroke;
flat in vec4 vColour;
uniform vec4 Cut;
uniform float Cutting;
out vec4 Paint;
void main() {
  if (Cutting > 0.5 && dot(Cut.xyz, vWorld) > Cut.w) discard;
  float past = max(0.0, max(-vAt.x, vAt.x - vLong));
  float d = length(vec2(past, vAt.y));
  float a = 1.0 - smoothstep(vStroke.x * 0.5 - 0.5, vStroke.x * 0.5 + 0.5, d);
  if (vStroke.y > 0.0 && mod(vAt.x, vStroke.y + vStroke.z) > vStroke.y) a = 0.0;
  if (a < 0.01) discard;
  Paint = vec4(vColour.rgb, a * vColour.a);
}`
