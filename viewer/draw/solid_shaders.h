// Shader text of the solid pass: parts, cut faces, ghosts' depth.
#pragma once

namespace lugline {

inline constexpr const char* solid_vertex_source = R"(
in vec3 a_position;
in vec3 a_normal;
in int a_look;
uniform mat4 u_clip_from_part;
uniform mat3 u_eye_from_part;
uniform vec4 u_place_x;
uniform vec4 u_place_y;
uniform vec3 u_middle;
uniform vec4 u_stretch; // zone low, zone high, delta, 1 where there is one
out vec3 v_part;
out vec3 v_part_normal;
out vec3 v_normal;
#ifdef CUT
out vec2 v_place;
#endif
flat out int v_look;
void main() {
  vec3 p = a_position;
  if (u_stretch.w > 0.5)
    p.z += u_stretch.z * clamp((p.z - u_stretch.x) / max(u_stretch.y - u_stretch.x, 1e-9), 0.0, 1.0);
  v_part = a_position + u_middle;
  v_part_normal = a_normal;
  v_normal = u_eye_from_part * a_normal;
#ifdef CUT
  v_place = vec2(dot(u_place_x, vec4(p, 1.0)), dot(u_place_y, vec4(p, 1.0)));
#endif
  v_look = a_look;
  gl_Position = u_clip_from_part * vec4(p, 1.0);
}
)";

/// key_tint(p): rgb and how much of it, for a point in the part's own frame.
inline constexpr const char* key_source = R"(
const int most_keys = 8;
uniform int u_key_count;
uniform vec4 u_key_place[most_keys]; // direction of its angle, half width, pattern
uniform vec4 u_key_reach[most_keys]; // inner, outer, low, high
uniform vec4 u_key_colour[most_keys];
uniform vec2 u_key_step; // pattern step and edge allowance, in metres

float key_pattern(int kind, vec3 q) {
  vec2 s = vec2(q.x + q.y, q.z + q.y) / u_key_step.x;
  if (kind == 0)
    return step(0.5, fract(s.x + s.y));
  if (kind == 1)
    return step(0.30, length(fract(s * 0.8) - 0.5));
  if (kind == 2)
    return step(0.28, fract(s.x + s.y)) * step(0.28, fract(s.x - s.y));
  if (kind == 3)
    return step(0.5, fract(s.y));
  return step(0.5, fract(s.x));
}

vec4 key_tint(vec3 p) {
  vec4 tint = vec4(0.0);
  for (int i = 0; i < most_keys; ++i) {
    if (i >= u_key_count)
      break;
    vec2 dir = u_key_place[i].xy;
    float along = dot(p.xy, dir);
    float across = dot(p.xy, vec2(dir.y, -dir.x));
    float r = length(p.xy);
    float e = u_key_step.y;
    vec4 reach = u_key_reach[i];
    if (along > 0.0 && abs(across) < u_key_place[i].z + e && r > reach.x - e && r < reach.y + e &&
        p.z > reach.z - e && p.z < reach.w + e) {
      float dark = key_pattern(int(u_key_place[i].w + 0.5), vec3(across, along, p.z));
      tint = vec4(mix(mix(u_key_colour[i].rgb, vec3(1.0), 0.42), u_key_colour[i].rgb, dark), 0.92);
    }
  }
  return tint;
}
)";

inline constexpr const char* solid_fragment_source = R"(
in vec3 v_part;
in vec3 v_part_normal;
in vec3 v_normal;
#ifdef CUT
in vec2 v_place;
#endif
flat in int v_look;
uniform vec4 u_tones[10];
uniform int u_own;
uniform int u_id;
uniform vec4 u_wedge;
uniform int u_wedge_kind;
uniform float u_texture_step; // metres
uniform mat3 u_eye_from_part;
layout(location = 0) out vec4 o_colour;
layout(location = 1) out vec4 o_surface;

const float cut_allowance = 2e-6;
const int lining_look = 5;

// A woven look for linings: short strokes both ways, about one step apart.
float weave(vec3 p, vec3 n) {
  vec2 q = abs(n.z) > 0.7 ? p.xy : vec2(atan(p.x, p.y) * length(p.xy), p.z);
  q = mat2(0.7071, 0.7071, -0.7071, 0.7071) * q / u_texture_step;
  vec2 g = vec2(length(vec2(dFdx(q.x), dFdy(q.x))), length(vec2(dFdx(q.y), dFdy(q.y))));
  vec2 cell = floor(q);
  vec2 f = abs(fract(q) - 0.5);
  bool turned = mod(cell.x + cell.y, 2.0) > 0.5;
  vec2 stroke = turned ? f.yx : f;
  vec2 gs = turned ? g.yx : g;
  float across = clamp((0.11 - stroke.x) / gs.x + 0.5, 0.0, 1.0);
  float along = clamp((0.36 - stroke.y) / gs.y + 0.5, 0.0, 1.0);
  float clear = smoothstep(0.45, 0.20, max(g.x, g.y));
  return mix(0.16, across * along, clear);
}

void main() {
#ifdef CUT
  {
    bool past_from = dot(v_place, u_wedge.xy) > -cut_allowance;
    bool before_to = dot(v_place, u_wedge.zw) < cut_allowance;
    if (u_wedge_kind == 1 ? (past_from && before_to) : (past_from || before_to))
      discard;
  }
#endif
  int look = v_look == 0 ? u_own : v_look;
  vec4 tone = u_tones[look];
  vec3 n = normalize(v_normal);
  if (!gl_FrontFacing)
    n = -n;
  vec3 base = tone.rgb;
#ifdef WOVEN
  if (look == lining_look)
    base *= 1.0 - 0.34 * weave(v_part, v_part_normal);
#endif
  float gloss = tone.a;
#ifdef KEYED
  vec4 tint = key_tint(v_part);
  base = mix(base, tint.rgb, tint.a);
  gloss *= 1.0 - tint.a;
#endif
  vec3 marks = u_eye_from_part * vec3(-v_part.y, v_part.x, 0.0);
  vec3 c = lit(base, n, marks * inversesqrt(dot(marks, marks) + 1e-12), gloss);
  // Half a step of noise, so that slow shading does not fall into bands.
  float noise = fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715))));
  o_colour = vec4(u_plain == 1 ? c : c + (noise - 0.5) / 255.0, 1.0);
  o_surface = vec4(packed_normal(n), packed_code(u_id * 32 + look));
}
)";

inline constexpr const char* cap_vertex_source = R"(
in vec4 a_cap; // radius, height, look, thickness
uniform mat4 u_clip_from_cap;
uniform mat4 u_part_from_cap;
uniform float u_nearer; // towards the eye, of the depth from -1 to 1
out vec2 v_cap;
out vec3 v_part;
flat out int v_look;
flat out float v_thickness;
void main() {
  v_thickness = a_cap.w;
  v_cap = a_cap.xy;
  v_look = int(a_cap.z + 0.5);
  v_part = (u_part_from_cap * vec4(a_cap.x, a_cap.y, 0.0, 1.0)).xyz;
  gl_Position = u_clip_from_cap * vec4(a_cap.x, a_cap.y, 0.0, 1.0);
  gl_Position.z -= u_nearer * gl_Position.w;
}
)";

inline constexpr const char* cap_fragment_source = R"(
in vec2 v_cap;
in vec3 v_part;
flat in int v_look;
flat in float v_thickness;
uniform vec4 u_tones[10];
uniform vec4 u_caps[10];  // rgb of each look
uniform int u_own;
uniform int u_all;        // one look for all of it; 0 each its own
uniform int u_id;
uniform float u_height;   // the part's own zero
uniform vec3 u_cap_normal;
uniform vec4 u_hatch;     // steps one way and the other, fade of their odd lines
uniform int u_mirror;     // 1: the other way round, so that neighbours differ
uniform float u_spread;   // of the steps, for the same reason
uniform vec4 u_hatch_ink; // rgb, strength
uniform float u_line;     // width in fine pixels
uniform float u_px_per_m; // finished pixels at scale 1
layout(location = 0) out vec4 o_colour;
layout(location = 1) out vec4 o_surface;

// Cover of evenly spaced lines; every other one may be faded, so that the
// spacing can double without a jump.
float lines(float u, float odd, float width) {
  float g = max(length(vec2(dFdx(u), dFdy(u))), 1e-6);
  float k = floor(u + 0.5);
  float cover = clamp(width * 0.5 + 0.5 - abs(u - k) / g, 0.0, 1.0);
  float weight = abs(mod(k, 2.0)) > 0.5 ? odd : 1.0;
  float clear = smoothstep(0.5, 0.3, g);
  return mix(min(g * width, 1.0) * 0.5 * (1.0 + odd), cover * weight, clear);
}

float hatch(int look, vec2 p) {
  if (u_mirror == 1)
    p.x = -p.x;
  vec2 steps = (u_mirror == 1 ? u_hatch.yx : u_hatch.xy) * u_spread;
  vec2 odd = u_mirror == 1 ? u_hatch.wz : u_hatch.zw;
  float rising = (p.y - p.x) * 0.70711 / steps.x;
  float falling = (p.y + p.x) * 0.70711 / steps.y;
  if (look == 2) // aluminium: wide and fine
    return 0.85 * lines(rising / 1.55, odd.x, 0.85 * u_line);
  if (look == 3) // iron: a little heavier than steel
    return lines(rising / 1.15, odd.x, 1.25 * u_line);
  if (look == 4) { // bronze: in pairs
    float wide = rising / 1.7;
    return max(lines(wide, odd.x, u_line), lines(wide + 0.22, odd.x, u_line));
  }
  if (look == 5) // lining: crossed
    return max(lines(rising / 0.8, odd.x, 0.9 * u_line), lines(falling / 0.8, odd.y, 0.9 * u_line));
  if (look == 6) // rubber: crossed and close
    return max(lines(rising / 0.5, 1.0, 1.3 * u_line), lines(falling / 0.5, 1.0, 1.3 * u_line));
  if (look == 8) // plastic: crossed and wide
    return 0.8 * max(lines(rising / 1.5, odd.x, 0.8 * u_line), lines(falling / 1.5, odd.y, 0.8 * u_line));
  return lines(rising, odd.x, u_line);
}

void main() {
  int look = u_all != 0 ? u_all : v_look == 0 ? u_own : v_look;
  // A layer too thin for hatching shows its own colour instead.
  float room = u_all != 0 ? 0.0 : smoothstep(2.6, 6.0, v_thickness * u_px_per_m);
  vec3 base = mix(mix(u_tones[look].rgb, u_caps[look].rgb, 0.25), u_caps[look].rgb, room);
  vec3 c = u_plain == 1 ? base : base * (0.955 + 0.045 * u_cap_normal.x);
#ifdef KEYED
  vec4 tint = key_tint(v_part);
  c = mix(c, mix(tint.rgb, vec3(1.0), 0.25), tint.a);
#endif
  c = mix(c, u_hatch_ink.rgb, u_hatch_ink.a * room * hatch(look, vec2(v_cap.x, v_cap.y - u_height)));
  o_colour = vec4(c, 1.0);
  o_surface = vec4(packed_normal(u_cap_normal), packed_code(u_id * 32 + 16 + look));
}
)";

inline constexpr const char* depth_fragment_source = R"(
in vec2 v_place;
uniform vec4 u_wedge;
uniform int u_wedge_kind;
void main() {
  if (u_wedge_kind != 0) {
    bool past_from = dot(v_place, u_wedge.xy) > 0.0;
    bool before_to = dot(v_place, u_wedge.zw) < 0.0;
    if (u_wedge_kind == 1 ? (past_from && before_to) : (past_from || before_to))
      discard;
  }
}
)";

} // namespace lugline
