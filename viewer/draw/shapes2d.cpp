#include "viewer/draw/shapes2d.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

namespace lugline {
namespace {

double cross(const glm::dvec2& a, const glm::dvec2& b) {
  return a.x * b.y - a.y * b.x;
}

double twice_area(const std::vector<glm::dvec2>& points) {
  double sum = 0;
  for (std::size_t i = 0; i < points.size(); ++i)
    sum += cross(points[i], points[(i + 1) % points.size()]);
  return sum;
}

/// Points nearer than a thousandth of a pixel are one.
std::vector<glm::dvec2> distinct(const std::vector<glm::dvec2>& points, bool closed) {
  std::vector<glm::dvec2> kept;
  for (const glm::dvec2& p : points)
    if (kept.empty() || glm::length(p - kept.back()) > 1e-3)
      kept.push_back(p);
  while (closed && kept.size() > 1 && glm::length(kept.front() - kept.back()) <= 1e-3)
    kept.pop_back();
  return kept;
}

/// The unit normal of a side, to the left of its way (y down: outward for a
/// polygon that runs clockwise on screen is the other one).
glm::dvec2 normal_of(const glm::dvec2& from, const glm::dvec2& to) {
  const glm::dvec2 way = glm::normalize(to - from);
  return {way.y, -way.x};
}

/// At each point, how far a line one pixel aside of both its sides is: the mitre.
std::vector<glm::dvec2> mitres(const std::vector<glm::dvec2>& points, bool closed) {
  const std::size_t n = points.size();
  std::vector<glm::dvec2> sides;
  for (std::size_t i = 0; i < n; ++i) {
    const bool first = i == 0 && !closed;
    const bool last = i + 1 == n && !closed;
    const glm::dvec2 after = last ? glm::dvec2(0) : normal_of(points[i], points[(i + 1) % n]);
    const glm::dvec2 before = first ? after : normal_of(points[(i + n - 1) % n], points[i]);
    const glm::dvec2 sum = before + (last ? before : after);
    sides.push_back(sum / std::max(0.5 * glm::dot(sum, sum), 0.35));
  }
  return sides;
}

Vertex2d vertex(const glm::dvec2& at, const Colour& colour, double opacity) {
  Vertex2d v;
  v.x = static_cast<float>(at.x);
  v.y = static_cast<float>(at.y);
  v.rgba[0] = colour.red;
  v.rgba[1] = colour.green;
  v.rgba[2] = colour.blue;
  v.rgba[3] =
      static_cast<std::uint8_t>(std::lround(std::clamp(opacity, 0.0, 1.0) * colour.opacity));
  return v;
}

bool inside(const glm::dvec2& p, const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& c) {
  return cross(b - a, p - a) >= 0 && cross(c - b, p - b) >= 0 && cross(a - c, p - c) >= 0;
}

} // namespace

void Triangles2d::triangle(const Vertex2d& a, const Vertex2d& b, const Vertex2d& c) {
  vertices_.insert(vertices_.end(), {a, b, c});
}

void Triangles2d::fill(const std::vector<glm::dvec2>& given, const Colour& colour) {
  std::vector<glm::dvec2> points = distinct(given, true);
  if (points.size() < 3)
    return;
  // Counter-clockwise in (x, y), so that normal_of looks outward.
  if (twice_area(points) < 0)
    std::reverse(points.begin(), points.end());
  const std::vector<glm::dvec2> sides = mitres(points, true);
  std::vector<glm::dvec2> core = points;
  std::vector<glm::dvec2> rim = points;
  for (std::size_t i = 0; i < points.size(); ++i) {
    core[i] -= 0.5 * sides[i];
    rim[i] += 0.5 * sides[i];
  }
  for (const auto& t : triangulated(core))
    triangle(vertex(core[t[0]], colour, 1), vertex(core[t[1]], colour, 1),
             vertex(core[t[2]], colour, 1));
  for (std::size_t i = 0; i < points.size(); ++i) {
    const std::size_t k = (i + 1) % points.size();
    const Vertex2d a = vertex(core[i], colour, 1);
    const Vertex2d b = vertex(core[k], colour, 1);
    const Vertex2d c = vertex(rim[k], colour, 0);
    const Vertex2d d = vertex(rim[i], colour, 0);
    triangle(a, b, c);
    triangle(a, c, d);
  }
}

void Triangles2d::line(const std::vector<glm::dvec2>& points, bool closed, const Stroke& stroke,
                       double scale) {
  const double width = stroke.width_px * scale;
  if (stroke.dash_px <= 0) {
    solid_line(points, closed, width, stroke.colour);
    return;
  }
  for (const auto& piece : dashes_of(points, closed, stroke.dash_px * scale, stroke.gap_px * scale))
    solid_line(piece, false, width, stroke.colour);
}

void Triangles2d::solid_line(const std::vector<glm::dvec2>& given, bool closed, double width,
                             const Colour& colour) {
  const std::vector<glm::dvec2> points = distinct(given, closed);
  const std::size_t n = points.size();
  if (n < 2)
    return;
  closed = closed && n > 2;
  const std::vector<glm::dvec2> sides = mitres(points, closed);
  // Thinner than a pixel is paler instead.
  const double strength = std::min(width, 1.0);
  const double core = std::max(width * 0.5 - 0.5, 0.0);
  const double rim = std::max(width, 1.0) * 0.5 + 0.5;
  const double across[4] = {-rim, -core, core, rim};
  const double opacity[4] = {0, strength, strength, 0};
  const auto strip = [&](const glm::dvec2& a, const glm::dvec2& side_a, double fade_a,
                         const glm::dvec2& b, const glm::dvec2& side_b, double fade_b) {
    for (int k = 0; k < 3; ++k) {
      const Vertex2d p = vertex(a + side_a * across[k], colour, opacity[k] * fade_a);
      const Vertex2d q = vertex(a + side_a * across[k + 1], colour, opacity[k + 1] * fade_a);
      const Vertex2d r = vertex(b + side_b * across[k + 1], colour, opacity[k + 1] * fade_b);
      const Vertex2d s = vertex(b + side_b * across[k], colour, opacity[k] * fade_b);
      triangle(p, q, r);
      triangle(p, r, s);
    }
  };
  std::vector<glm::dvec2> run = points;
  if (!closed) {
    // Square ends with a ramp of their own, half a pixel in and half out.
    const glm::dvec2 start = glm::normalize(points[1] - points[0]);
    const glm::dvec2 end = glm::normalize(points[n - 1] - points[n - 2]);
    const double total = glm::length(points[1] - points[0]);
    const double in_start = std::min(0.5, 0.25 * total);
    run.front() += start * in_start;
    run.back() -= end * std::min(0.5, 0.25 * glm::length(points[n - 1] - points[n - 2]));
    strip(points.front() - start * 0.5, sides.front(), 0, run.front(), sides.front(), 1);
    strip(run.back(), sides.back(), 1, points.back() + end * 0.5, sides.back(), 0);
  }
  for (std::size_t i = 0; i + 1 < n + (closed ? 1 : 0); ++i) {
    const std::size_t k = (i + 1) % n;
    strip(run[i], sides[i], 1, run[k], sides[k], 1);
  }
}

void Triangles2d::glyph(double left, double top, double right, double bottom, const glm::vec4& uv,
                        const Colour& colour) {
  const auto corner = [&](double x, double y, float u, float v) {
    Vertex2d made = vertex({x, y}, colour, 1);
    made.u = u;
    made.v = v;
    return made;
  };
  const Vertex2d a = corner(left, top, uv.x, uv.y);
  const Vertex2d b = corner(right, top, uv.z, uv.y);
  const Vertex2d c = corner(right, bottom, uv.z, uv.w);
  const Vertex2d d = corner(left, bottom, uv.x, uv.w);
  triangle(a, b, c);
  triangle(a, c, d);
}

std::vector<glm::dvec2> rounded_rect(double left, double top, double right, double bottom,
                                     double corner) {
  const double r = std::min({corner, 0.5 * (right - left), 0.5 * (bottom - top)});
  if (r <= 0)
    return {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
  std::vector<glm::dvec2> points;
  const int steps = std::clamp(static_cast<int>(std::ceil(2 * std::sqrt(r))), 3, 24);
  const std::array<glm::dvec2, 4> middles = {
      glm::dvec2(right - r, top + r), glm::dvec2(right - r, bottom - r),
      glm::dvec2(left + r, bottom - r), glm::dvec2(left + r, top + r)};
  for (std::size_t q = 0; q < 4; ++q)
    for (int i = 0; i <= steps; ++i) {
      const double a =
          (static_cast<double>(q) - 1 + static_cast<double>(i) / steps) * std::numbers::pi * 0.5;
      points.push_back(middles[q] + r * glm::dvec2(std::cos(a), std::sin(a)));
    }
  return points;
}

std::vector<glm::dvec2> circle_points(const glm::dvec2& centre, double radius) {
  const int steps = std::clamp(static_cast<int>(std::ceil(8 * std::sqrt(radius))), 12, 180);
  std::vector<glm::dvec2> points;
  for (int i = 0; i < steps; ++i) {
    const double a = 2 * std::numbers::pi * i / steps;
    points.push_back(centre + radius * glm::dvec2(std::cos(a), std::sin(a)));
  }
  return points;
}

std::vector<std::vector<glm::dvec2>> dashes_of(const std::vector<glm::dvec2>& given, bool closed,
                                               double dash, double gap) {
  std::vector<glm::dvec2> points = given;
  if (closed && !points.empty())
    points.push_back(points.front());
  double length = 0;
  for (std::size_t i = 0; i + 1 < points.size(); ++i)
    length += glm::length(points[i + 1] - points[i]);
  std::vector<std::vector<glm::dvec2>> pieces;
  if (length <= 0 || dash <= 0)
    return pieces;
  const double period = dash + std::max(gap, 0.0);
  const double whole = closed ? std::max(1.0, std::round(length / period))
                              : std::max(0.0, std::round((length - dash) / period));
  const double stretch = closed ? length / (whole * period) : length / (whole * period + dash);
  double left = dash * stretch; // of what is being drawn or left out
  bool drawing = true;
  pieces.push_back({points.front()});
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    glm::dvec2 here = points[i];
    double rest = glm::length(points[i + 1] - here);
    while (rest > left + 1e-9) {
      here += (points[i + 1] - here) * (left / rest);
      rest -= left;
      if (drawing)
        pieces.back().push_back(here);
      else
        pieces.push_back({here});
      drawing = !drawing;
      left = (drawing ? dash : gap) * stretch;
    }
    left -= rest;
    if (drawing)
      pieces.back().push_back(points[i + 1]);
  }
  std::erase_if(pieces, [](const auto& piece) { return piece.size() < 2; });
  return pieces;
}

std::vector<std::array<std::size_t, 3>> triangulated(const std::vector<glm::dvec2>& points) {
  std::vector<std::array<std::size_t, 3>> triangles;
  std::vector<std::size_t> ring(points.size());
  std::iota(ring.begin(), ring.end(), std::size_t{0});
  if (twice_area(points) < 0)
    std::reverse(ring.begin(), ring.end());
  while (ring.size() >= 3) {
    bool clipped = false;
    for (std::size_t i = 0; i < ring.size() && !clipped; ++i) {
      const std::size_t before = ring[(i + ring.size() - 1) % ring.size()];
      const std::size_t here = ring[i];
      const std::size_t after = ring[(i + 1) % ring.size()];
      if (cross(points[here] - points[before], points[after] - points[here]) <= 0)
        continue;
      const bool ear = std::none_of(ring.begin(), ring.end(), [&](std::size_t k) {
        return k != before && k != here && k != after &&
               inside(points[k], points[before], points[here], points[after]);
      });
      if (!ear)
        continue;
      triangles.push_back({before, here, after});
      ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
      clipped = true;
    }
    // Only straight or crossed corners are left: nothing more to fill.
    if (!clipped)
      break;
  }
  return triangles;
}

} // namespace lugline
