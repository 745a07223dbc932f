// What the drop computes with and what is drawn are one part: points of the mesh's
// surface lie on the solid's, and points of the solid's surface on the mesh's.

#include "scene/mesh/vector.h"
#include "scene/recipe/recipe.h"
#include "tests/recipe/demo.h"
#include "tests/recipe/mesh_check.h"
#include "tests/recipe/random_solid.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>

namespace lugline::test {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double mm = 1e-3;
constexpr double chord_m = 0.02 * mm;

/// Parts that are drawn finer than the solid that the drop takes them for; the mesh lies
/// in the solid, and the solid's surface is this far from the mesh at most. A wave plate's
/// is its waves' height, a dished one's its cone's, a bevel's or chamfer's its depth, the anchor's
/// the corners that its round end lacks. Of coils, and of sprags, rollers and needles in
/// their cage, the solid is an envelope, and mostly room. A carrier's pinions are bounded by their
/// tip circles between the sun and the ring: that is off by the depth of their teeth, and by the
/// bands.
const double envelope_m = 1;
const std::map<std::string, double> finer{
    {"CC-WAVE", 1.0 * mm + chord_m},
    {"CS-RING", 0.8 * mm},
    {"OW-OR", 0.7 * mm},
    {"BAND-ANC", 2.5 * mm},
    {"CC-SPR", envelope_m},
    {"MC-SPR", envelope_m},
    {"OW-ELEM", envelope_m},
    {"UC-SPR", envelope_m},
    {"UC-CUSH", 1.0 * mm + chord_m},
    // Lip seals and an O-ring: the hollows of their section. A ball's capsule: its bore.
    {"CC-SO", 2 * mm},
    {"CC-SI", 2 * mm},
    {"MC-SO", 2 * mm},
    {"MC-SI", 2 * mm},
    {"UC-SO", 2 * mm},
    {"UC-SI", 2 * mm},
    {"PU-FS", 4 * mm},
    {"PU-OR", 0.7 * mm},
    {"MC-BALL", 3 * mm},
    {"UC-BALL", 3 * mm},
    // Bolts: what their round head and washer hold beside a hexagon.
    {"PU-BOLT", 2 * mm},
    // Rollers in their cage, and gears in their outline: mostly room.
    {"RT-LRC", envelope_m},
    {"RT-B1", envelope_m},
    {"PU-GEARS", envelope_m},
    // What lies crosswise: square bars about what is round.
    {"CS-BOLT", envelope_m},
    {"BAND-ANC-R", 3 * mm},
    {"LS-LEV", envelope_m},
    {"LS-PIST", envelope_m},
    {"LS-PIN", 3 * mm},
    {"LS-COV", envelope_m},
    {"US-PIN", 2.5 * mm},
    {"US-PIST", envelope_m},
    {"RT-C1", 4.0 * mm},
    {"RT-C2", 4.0 * mm}};

/// A servo's piston has a square channel for its pin, and a round bore in it; the probe
/// looks along the radius and the circle, which lie across the channel's corners.
double channel_m(const std::string& id) {
  const double square = std::sqrt(2.0) - 1;
  return id == "LS-PIST" ? 10.1 / 2 * square * mm : id == "US-PIST" ? 8.1 / 2 * square * mm : 0;
}

/// Where pinions mesh, a carrier's solid has their flanks band by band, within the true
/// ones: what stands out of it there is a part of a band.
double may_stand_out_m(const MadePart& part, const Vec3& p) {
  const double r_m = std::hypot(p.x, p.y);
  const bool meshes = part.component.kind == ComponentKind::carrier &&
                      (r_m < 26.4 * mm || (r_m > 54.6 * mm && r_m < 57.8 * mm));
  return meshes ? 0.6 * mm : chord_m;
}

Vec3 point_at_angle(double r_m, double angle_rad, double z_m) {
  return {-r_m * std::sin(angle_rad), r_m * std::cos(angle_rad), z_m};
}

/// A point of one of the ring's faces, and the direction out of it there.
struct FacePoint {
  Vec3 point_m;
  Vec3 out;
};

FacePoint random_face_point(const SectorRing& ring, std::mt19937_64& random) {
  const auto part = [&] { return std::uniform_real_distribution<double>(0, 1)(random); };
  const double r_m = ring.inner_m + (ring.outer_m - ring.inner_m) * part();
  const double z_m = ring.low_m + (ring.high_m - ring.low_m) * part();
  Sector sector{{0, 0}, {2 * pi, 0}};
  if (!ring.full()) {
    sector = ring.sectors[std::uniform_int_distribution<std::size_t>(0, ring.sectors.size() -
                                                                            1)(random)];
  }
  const auto angle_at = [&](double at_m) {
    return sector.from.at(at_m) + (sector.to.at(at_m) - sector.from.at(at_m)) * part();
  };
  switch (std::uniform_int_distribution<int>(0, ring.full() ? 3 : 5)(random)) {
  case 0:
    return {point_at_angle(r_m, angle_at(r_m), ring.low_m), {0, 0, -1}};
  case 1:
    return {point_at_angle(r_m, angle_at(r_m), ring.high_m), {0, 0, 1}};
  case 2: {
    const double a = angle_at(ring.inner_m);
    return {point_at_angle(ring.inner_m, a, z_m), point_at_angle(-1, a, 0)};
  }
  case 3: {
    const double a = angle_at(ring.outer_m);
    return {point_at_angle(ring.outer_m, a, z_m), point_at_angle(1, a, 0)};
  }
  case 4: {
    const double a = sector.from.at(r_m);
    return {point_at_angle(r_m, a, z_m), point_at_angle(1, a - pi / 2, 0)};
  }
  default: {
    const double a = sector.to.at(r_m);
    return {point_at_angle(r_m, a, z_m), point_at_angle(1, a + pi / 2, 0)};
  }
  }
}

double distance_to_segment(const Vec3& p, const Vec3& a, const Vec3& b) {
  const Vec3 along = b - a;
  const double square = dot(along, along);
  const double t = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0;
  return length(p - a - along * t);
}

double distance_to_triangle(const Vec3& p, const Vec3& a, const Vec3& b, const Vec3& c) {
  const Vec3 normal = unit_or(cross(b - a, c - a), {0, 0, 1});
  const bool over = dot(cross(b - a, p - a), normal) >= 0 &&
                    dot(cross(c - b, p - b), normal) >= 0 && dot(cross(a - c, p - c), normal) >= 0;
  if (over) {
    return std::abs(dot(p - a, normal));
  }
  return std::min(
      {distance_to_segment(p, a, b), distance_to_segment(p, b, c), distance_to_segment(p, c, a)});
}

double distance_to_mesh(const Vec3& p, const Mesh& mesh) {
  double least = std::numeric_limits<double>::max();
  for (const auto& [i, j, k] : mesh.triangles) {
    const Vec3& a = mesh.positions_m[i];
    const Vec3& b = mesh.positions_m[j];
    const Vec3& c = mesh.positions_m[k];
    const auto beyond = [&](double at, double x, double y, double z) {
      return at < std::min({x, y, z}) - least || at > std::max({x, y, z}) + least;
    };
    if (!beyond(p.x, a.x, b.x, c.x) && !beyond(p.y, a.y, b.y, c.y) && !beyond(p.z, a.z, b.z, c.z)) {
      least = std::min(least, distance_to_triangle(p, a, b, c));
    }
  }
  return least;
}

/// The furthest that a point of the solid's own surface is from the mesh, of so many tried.
double solid_from_mesh_m(const Solid& solid, const Mesh& mesh, int tries, std::mt19937_64& random) {
  double furthest_m = 0;
  int looked_at = 0;
  for (int k = 0; k < tries; ++k) {
    const SectorRing& ring =
        solid.rings[std::uniform_int_distribution<std::size_t>(0, solid.rings.size() - 1)(random)];
    const FacePoint at = random_face_point(ring, random);
    if (in_solid(solid, at.point_m + at.out * 1e-6, 0)) {
      continue; // a face between two rings: no surface of the body
    }
    ++looked_at;
    furthest_m = std::max(furthest_m, distance_to_mesh(at.point_m, mesh));
  }
  CHECK(looked_at > tries / 20);
  return furthest_m;
}

} // namespace

TEST_CASE("points of each demo part's solid lie on its mesh") {
  std::mt19937_64 random(17);
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const double off_m = solid_from_mesh_m(part.component.solid, part.mesh, 400, random);
    const auto found = finer.find(part.component.id);
    CHECK(off_m < (found == finer.end() ? chord_m + 1e-9 : found->second));
    // A part that is not finer has no place in the list.
    CHECK((off_m > 2 * chord_m) == (found != finer.end()));
  }
}

TEST_CASE("points of each demo part's mesh lie on its solid, or in it where it is drawn finer") {
  std::mt19937_64 random(23);
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const Solid& solid = part.component.solid;
    int outside = 0;
    int inside = 0;
    for (int k = 0; k < 1000; ++k) {
      const Vec3 p = random_surface_point(part.mesh, random);
      outside += in_solid(solid, p, may_stand_out_m(part, p) + channel_m(part.component.id) + 1e-9)
                     ? 0
                     : 1;
      // The probe looks in eight directions, so it must look a little further.
      inside += in_solid(solid, p, -1.2 * chord_m) ? 1 : 0;
    }
    CHECK(outside == 0);
    CHECK((inside == 0) == !finer.contains(part.component.id));
  }
}

TEST_CASE("points of random solids lie on their meshes, and of the meshes on the solids") {
  std::mt19937_64 random(19);
  for (int trial = 0; trial < 40; ++trial) {
    CAPTURE(trial);
    const Solid solid = random_core_solid(random);
    const Mesh mesh = mesh_of(solid, "iron");
    CHECK(solid_from_mesh_m(solid, mesh, 60, random) < chord_m + 1e-9);
  }
}

} // namespace lugline::test
