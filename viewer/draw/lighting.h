// The light, as shader text that the passes share.
//
// lit(base, n, t, gloss) takes an sRGB colour, a unit normal and the way of the
// turning marks, both seen from the eye, and gives an sRGB colour. Uniforms: u_up is the unit's own
// up seen from the eye; u_plain is 1 for print, where colour goes through untouched.
#pragma once

namespace lugline {

inline constexpr const char* lighting_source = R"(
uniform vec3 u_up;
uniform int u_plain;

// A soft stripe: one in its middle, nothing far from it, no exponential.
float band(float x, float middle, float width) {
  float d = (x - middle) / width;
  float f = 1.0 / (1.0 + 0.5 * d * d);
  return f * f;
}

// How a turned surface shines along its marks t, for a light half way at h:
// brightest where the marks stand square to it.
float turned(vec3 t, vec3 h) {
  float c = dot(t, h);
  float f = 1.0 - c * c;
  f *= f;
  f *= f;
  f *= f;
  return f * f;
}

// gloss below one half is cast, above it turned about the part's axis with its
// marks along t.
vec3 lit(vec3 base, vec3 n, vec3 t, float gloss) {
  if (u_plain == 1)
    return base;
  vec3 albedo = base * base;
  float sky = dot(n, u_up) * 0.5 + 0.5;
  // Key light over the left shoulder, a cool fill low on the right.
  vec3 key_way = vec3(-0.5175, 0.4976, 0.6966);
  vec3 fill_way = vec3(0.8665, -0.1083, 0.4874);
  float key = clamp((dot(n, key_way) + 0.18) / 1.18, 0.0, 1.0);
  float fill = clamp(dot(n, fill_way), 0.0, 1.0);
  vec3 light = mix(vec3(0.30, 0.28, 0.265), vec3(0.54, 0.54, 0.535), sky)
             + vec3(0.61, 0.585, 0.54) * key
             + vec3(0.085, 0.095, 0.11) * fill;
  float edge = 1.0 - clamp(n.z, 0.0, 1.0);
  float metal = clamp(gloss * 2.0 - 1.0, 0.0, 1.0);
  // Cast: two tall soft windows in what the surface mirrors, so that round
  // reads as round. Turned: the light runs along the marks.
  vec3 r = reflect(vec3(0.0, 0.0, -1.0), n);
  float mirror = 0.95 * band(r.x, -0.50, 0.20) + 0.45 * band(r.x, 0.74, 0.12);
  mirror *= 0.55 + 0.45 * clamp(r.y + 0.6, 0.0, 1.0);
  float streak = turned(t, vec3(-0.281, 0.270, 0.921)) * (0.35 + 0.65 * key)
               + 0.55 * turned(t, vec3(0.502, -0.063, 0.862)) * (0.3 + 0.7 * fill);
  vec3 c = albedo * light * (1.0 - 0.16 * gloss * edge * edge - 0.20 * metal);
  float shine = mix(mirror * gloss, streak * 1.1 * metal, metal);
  c += shine * mix(vec3(0.20), albedo * 0.60, 0.5);
  return sqrt(clamp(c, 0.0, 1.0));
}

vec2 packed_normal(vec3 n) {
  vec2 p = n.xy / (abs(n.x) + abs(n.y) + abs(n.z));
  if (n.z < 0.0)
    p = (1.0 - abs(p.yx)) * vec2(p.x >= 0.0 ? 1.0 : -1.0, p.y >= 0.0 ? 1.0 : -1.0);
  return p * 0.5 + 0.5;
}

vec2 packed_code(int code) {
  return vec2(float(code / 256), float(code - (code / 256) * 256)) / 255.0;
}
)";

/// For passes that read the buffers: depth along the sight line in metres, the
/// normal, and the code. Uniforms: u_planes is near and far.
inline constexpr const char* buffer_reading_source = R"(
uniform vec2 u_planes;

float sight_depth(float d) {
  return u_planes.x * u_planes.y / (u_planes.y - d * (u_planes.y - u_planes.x));
}

vec3 opened_normal(vec2 stored) {
  vec2 p = stored * 2.0 - 1.0;
  vec3 n = vec3(p, 1.0 - abs(p.x) - abs(p.y));
  float t = max(-n.z, 0.0);
  n.xy += vec2(n.x >= 0.0 ? -t : t, n.y >= 0.0 ? -t : t);
  return normalize(n);
}

int opened_code(vec2 stored) {
  return int(stored.x * 255.0 + 0.5) * 256 + int(stored.y * 255.0 + 0.5);
}
)";

} // namespace lugline
