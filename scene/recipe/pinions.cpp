#include "scene/recipe/pinions.h"

#include "scene/recipe/finish.h"
#include "scene/recipe/kinds.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;
constexpr int zone_bands = 6;
constexpr int disc_bands = 6;
constexpr int pin_sides = 16;
/// A pin is drawn this much under its hole, so that the two surfaces stay apart.
constexpr double pin_fit_m = 0.05e-3;

struct Point {
  double x = 0;
  double y = 0;
};

Point polar(double r_m, double angle_rad) {
  return {-r_m * std::sin(angle_rad), r_m * std::cos(angle_rad)};
}

/// One tooth's outline from a root over the tip to the other root, about the carrier's
/// axis, the pinion at 12 o'clock.
std::vector<Point> tooth_outline(const Pinions& p, double tooth_rad) {
  constexpr int pieces = 24;
  const double root_m = p.gear.root_diameter_m / 2;
  const double tip_m = p.gear.tip_diameter_m / 2;
  std::vector<std::pair<double, double>> line; // radius and angle about the pin
  for (int k = 0; k <= pieces; ++k) {
    const double r_m = root_m + (tip_m - root_m) * k / pieces;
    line.emplace_back(r_m, tooth_rad - p.gear.half_tooth_rad(2 * r_m));
  }
  const double half_tip_rad = p.gear.half_tooth_rad(2 * tip_m);
  for (int k = 1; k < pieces; ++k) {
    line.emplace_back(tip_m, tooth_rad + half_tip_rad * (2.0 * k / pieces - 1));
  }
  for (int k = pieces; k >= 0; --k) {
    const double r_m = root_m + (tip_m - root_m) * k / pieces;
    line.emplace_back(r_m, tooth_rad + p.gear.half_tooth_rad(2 * r_m));
  }
  std::vector<Point> outline;
  for (const auto& [r_m, angle_rad] : line) {
    const Point about_pin = polar(r_m, angle_rad);
    outline.push_back({about_pin.x, about_pin.y + p.circle_m / 2});
  }
  return outline;
}

/// Where a circle about the axis is within the outline, as angles; empty: nowhere, or
/// not from side to side.
struct Chord {
  double from_rad = 0;
  double to_rad = 0;
};
std::optional<Chord> chord_at(const std::vector<Point>& outline, double r_m) {
  std::vector<double> crossed_rad;
  for (std::size_t k = 0; k + 1 < outline.size(); ++k) {
    const Point& a = outline[k];
    const Point& b = outline[k + 1];
    const double over_a = std::hypot(a.x, a.y) - r_m;
    const double over_b = std::hypot(b.x, b.y) - r_m;
    if ((over_a < 0) != (over_b < 0)) {
      const double part = over_a / (over_a - over_b);
      crossed_rad.push_back(std::atan2(-(a.x + (b.x - a.x) * part), a.y + (b.y - a.y) * part));
    }
  }
  if (crossed_rad.size() != 2) {
    return std::nullopt;
  }
  return Chord{std::min(crossed_rad[0], crossed_rad[1]), std::max(crossed_rad[0], crossed_rad[1])};
}

/// What of the tooth fills a band: between straight flanks that stay within it.
std::optional<Sector> tooth_in_band(const std::vector<Point>& outline, double inner_m,
                                    double outer_m) {
  constexpr int samples = 8;
  std::vector<Chord> chords;
  for (int k = 0; k <= samples; ++k) {
    const auto chord = chord_at(outline, inner_m + (outer_m - inner_m) * k / samples);
    if (!chord) {
      return std::nullopt;
    }
    chords.push_back(*chord);
  }
  Sector sector{flank_through(inner_m, chords.front().from_rad, outer_m, chords.back().from_rad),
                flank_through(inner_m, chords.front().to_rad, outer_m, chords.back().to_rad)};
  double from_in = 0;
  double to_in = 0;
  for (int k = 0; k <= samples; ++k) {
    const double r_m = inner_m + (outer_m - inner_m) * k / samples;
    const Chord& chord = chords[static_cast<std::size_t>(k)];
    from_in = std::max(from_in, chord.from_rad - sector.from.at(r_m));
    to_in = std::max(to_in, sector.to.at(r_m) - chord.to_rad);
  }
  sector.from.angle_rad += from_in;
  sector.to.angle_rad -= to_in;
  for (int k = 0; k <= samples; ++k) {
    const double r_m = inner_m + (outer_m - inner_m) * k / samples;
    if (sector.to.at(r_m) - sector.from.at(r_m) < 1e-4) {
      return std::nullopt;
    }
  }
  return sector;
}

void by_angle(std::vector<Sector>& sectors, double r_m) {
  std::ranges::sort(sectors, {}, [r_m](const Sector& s) { return s.from.at(r_m); });
}

/// All pinions' teeth between two radii.
void add_teeth(const Pinions& p, double inner_m, double outer_m, std::vector<SectorRing>& rings) {
  std::vector<std::vector<std::vector<Point>>> outlines; // by pinion, by tooth
  for (int k = 0; k < p.planets.count; ++k) {
    const double tooth_rad = pinion_tooth_rad(p.planets, p.at_rad(k), p.first_rad) - p.at_rad(k);
    outlines.emplace_back();
    for (int j = 0; j < p.planets.pinion; ++j) {
      outlines.back().push_back(tooth_outline(p, tooth_rad + 2 * pi * j / p.planets.pinion));
    }
  }
  for (int band = 0; band < zone_bands; ++band) {
    const double low_m = inner_m + (outer_m - inner_m) * band / zone_bands;
    const double high_m = inner_m + (outer_m - inner_m) * (band + 1) / zone_bands;
    std::vector<Sector> sectors;
    for (int k = 0; k < p.planets.count; ++k) {
      for (const std::vector<Point>& outline : outlines[static_cast<std::size_t>(k)]) {
        if (auto sector = tooth_in_band(outline, low_m, high_m)) {
          sector->from.angle_rad += p.at_rad(k);
          sector->to.angle_rad += p.at_rad(k);
          sectors.push_back(*sector);
        }
      }
    }
    if (!sectors.empty()) {
      by_angle(sectors, low_m);
      rings.push_back({low_m, high_m, p.low_m, p.high_m, std::move(sectors), p.feature, ""});
    }
  }
}

/// Discs on the pins, with what lies under them, between two radii about the axis.
void add_discs(const Pinions& p, double disc_m, double inner_m, double outer_m, double low_m,
               double high_m, const std::string& feature, std::vector<SectorRing>& rings) {
  const double centre_m = p.circle_m / 2;
  const double radius_m = disc_m / 2;
  const double from_m = std::max(inner_m, centre_m - radius_m);
  const double to_m = std::min(outer_m, centre_m + radius_m);
  const auto half_rad = [&](double r_m) {
    const double cosine =
        (r_m * r_m + centre_m * centre_m - radius_m * radius_m) / (2 * r_m * centre_m);
    return std::acos(std::clamp(cosine, -1.0, 1.0));
  };
  const double widest_m = std::sqrt(centre_m * centre_m - radius_m * radius_m);
  for (int band = 0; band < disc_bands; ++band) {
    const double r0_m = from_m + (to_m - from_m) * band / disc_bands;
    const double r1_m = from_m + (to_m - from_m) * (band + 1) / disc_bands;
    const double most_rad = half_rad(std::clamp(widest_m, r0_m, r1_m));
    rings.push_back({r0_m, r1_m, low_m, high_m,
                     repeated(radial_sector(p.first_rad, 2 * most_rad), p.planets.count), feature,
                     ""});
  }
}

std::vector<Vec3> round_outline(double diameter_m) {
  std::vector<Vec3> outline;
  for (int k = 0; k < pin_sides; ++k) {
    const double a = 2 * pi * (k + 0.5) / pin_sides;
    outline.push_back({diameter_m / 2 * std::cos(a), diameter_m / 2 * std::sin(a), 0});
  }
  return outline;
}

} // namespace

double Pinions::at_rad(int pinion) const {
  return first_rad + 2 * pi * pinion / planets.count;
}

std::vector<SectorRing> pinion_rings(const Pinions& p) {
  const double clearance_m = 0.25 * p.gear.module_m / 4; // a part of the clearance at the roots
  const double sun_zone_m = p.sun.tip_diameter_m / 2 + clearance_m;
  const double ring_zone_m = p.ring.tip_diameter_m / 2 - clearance_m;
  const double tip_m = p.gear.tip_diameter_m / 2;
  std::vector<SectorRing> rings;
  add_teeth(p, p.circle_m / 2 - tip_m, sun_zone_m, rings);
  add_discs(p, p.gear.tip_diameter_m, sun_zone_m, ring_zone_m, p.low_m, p.high_m, p.feature, rings);
  add_teeth(p, ring_zone_m, p.circle_m / 2 + tip_m, rings);
  if (p.washer_m > 0) {
    add_discs(p, p.washer_outside_m, 0, 1, p.low_m - p.washer_m, p.low_m, "pinion washer", rings);
    add_discs(p, p.washer_outside_m, 0, 1, p.high_m, p.high_m + p.washer_m, "pinion washer", rings);
  }
  const double over_m = p.high_m + p.washer_m;
  if (p.space_high_m - over_m > 1e-9) {
    add_discs(p, p.pin_m, 0, 1, over_m, p.space_high_m, "pinion pin", rings);
  }
  const double under_m = p.low_m - p.washer_m;
  if (under_m - p.space_low_m > 1e-9) {
    add_discs(p, p.pin_m, 0, 1, p.space_low_m, under_m, "pinion pin", rings);
  }
  return rings;
}

std::vector<SectorRing> pin_holes(const Pinions& p) {
  // A many-sided hole: its corners lie in pairs at equal radii, a side towards the axis
  // and one away from it, and its other sides are flanks.
  std::vector<std::pair<double, double>> corners; // radius, half angle; from the axis outward
  for (int k = 0; k < pin_sides / 2; ++k) {
    const double a = pi - 2 * pi * (k + 0.5) / pin_sides;
    const double out_m = p.circle_m / 2 + p.pin_m / 2 * std::cos(a);
    const double aside_m = p.pin_m / 2 * std::sin(a);
    corners.emplace_back(std::hypot(out_m, aside_m), std::atan2(aside_m, out_m));
  }
  std::vector<SectorRing> holes;
  for (std::size_t k = 0; k + 1 < corners.size(); ++k) {
    const auto& [r0_m, half0] = corners[k];
    const auto& [r1_m, half1] = corners[k + 1];
    const Flank side = flank_through(r0_m, half0, r1_m, half1);
    const Sector hole{{p.first_rad - side.angle_rad, -side.offset_m},
                      {p.first_rad + side.angle_rad, side.offset_m}};
    holes.push_back({r0_m, r1_m, p.pin_low_m - 1, p.pin_high_m + 1, repeated(hole, p.planets.count),
                     "pin hole", ""});
  }
  return holes;
}

Mesh pinion_mesh(const Pinions& p, const std::string& material, const MeshOptions& options) {
  Solid pinion;
  pinion.rings.push_back(
      ring_between(p.pin_m + 0.2e-3, p.gear.root_diameter_m, p.low_m, p.high_m, p.feature));
  for (SectorRing& ring :
       involute_rings(p.gear, 0, p.low_m, p.high_m, p.feature, options.chord_tolerance_m)) {
    pinion.rings.push_back(std::move(ring));
  }
  const Mesh one = mesh_of(pinion, material, options);
  Mesh loose;
  const double washer_bore_m = p.pin_m + 0.3e-3;
  for (const double low_m : {p.low_m - p.washer_m, p.high_m}) {
    if (p.washer_m > 0) {
      // A hair of air to the pinion's face: two bodies, not one.
      const double air_m = 0.03e-3;
      const double gap_low_m = low_m < p.low_m ? 0 : air_m;
      const double gap_high_m = low_m < p.low_m ? air_m : 0;
      append(loose, mesh_of({{ring_between(washer_bore_m, p.washer_outside_m, low_m + gap_low_m,
                                           low_m + p.washer_m - gap_high_m, "washer")}},
                            "bronze", options));
    }
  }
  append(loose, smoothed(block_over(round_outline(p.pin_m - 2 * pin_fit_m), p.pin_low_m,
                                    p.pin_high_m, material),
                         20 * pi / 180));
  Mesh all;
  for (int k = 0; k < p.planets.count; ++k) {
    const Placement there = Placement::moved(point_at(p.circle_m / 2, p.at_rad(k), 0));
    const double tooth_rad = pinion_tooth_rad(p.planets, p.at_rad(k), p.first_rad);
    append(all, placed(one, Placement::turned(tooth_rad).then(there)));
    append(all, placed(loose, Placement::turned(p.at_rad(k)).then(there)));
  }
  return all;
}

} // namespace lugline
