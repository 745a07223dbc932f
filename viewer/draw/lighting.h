// The light, as shader text that the passes share.
//
// lit(base, n, gloss) takes an sRGB colour and a unit normal seen from the eye
// and gives an sRGB colour. Uniforms: u_up is the unit's own up seen from the
// eye; u_plain is 1 for print, where colour goes through untouched.
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

vec3 lit(vec3 base, vec3 n, float gloss) {
  if (u_plain == 1)
    return base;
  vec3 albedo = base * base;
  float sky = dot(n, u_up) * 0.5 + 0.5;
  // Key light over the left shoulder, a cool fill low on the right.
  float key = clamp((dot(n, normalize(vec3(-0.52, 0.50, 0.70))) + 0.18) / 1.18, 0.0, 1.0);
  float fill = clamp(dot(n, normalize(vec3(0.80, -0.10, 0.45))), 0.0, 1.0);
  vec3 light = mix(vec3(0.30, 0.28, 0.265), vec3(0.56, 0.56, 0.555), sky)
             + vec3(0.63, 0.605, 0.56) * key
             + vec3(0.085, 0.095, 0.11) * fill;
  // Two tall soft windows in what the surface mirrors: round reads as round.
  vec3 r = reflect(vec3(0.0, 0.0, -1.0), n);
  float mirror = 0.95 * band(r.x, -0.50, 0.20) + 0.45 * band(r.x, 0.74, 0.12);
  mirror *= 0.55 + 0.45 * clamp(r.y + 0.6, 0.0, 1.0);
  float edge = 1.0 - clamp(n.z, 0.0, 1.0);
  vec3 c = albedo * light * (1.0 - 0.16 * gloss * edge * edge);
  c += gloss * mirror * mix(vec3(0.20), albedo * 0.55, 0.45);
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
