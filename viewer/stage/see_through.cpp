#include "viewer/stage/see_through.h"

#include "scene/mesh/vector.h"
#include "viewer/stage/whole_in_cut.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace lugline {

namespace {

constexpr std::size_t most_places = 64;
/// Automatic: covered by so much it begins, and by less than that it ends.
constexpr double begins_covered = 0.55;
constexpr double ends_covered = 0.42;
/// A part that hides so much of the one in hand is seen through; of one seen through already,
/// less is enough.
constexpr double begins_share = 0.12;
constexpr double ends_share = 0.06;
constexpr double begins_share_always = 0.05;
constexpr double ends_share_always = 0.02;
/// A line of sight begins off the surface, so that what the part stands on does not hide it.
constexpr double off_surface_m = 2e-4;

struct Span {
  double from = 0;
  double to = 0;
};

/// Along from + t * way: where it is within a radius of the axis.
bool within_radius(const Vec3& from, const Vec3& way, double radius_m, Span& span) {
  const double a = way.x * way.x + way.y * way.y;
  const double b = from.x * way.x + from.y * way.y;
  const double c = from.x * from.x + from.y * from.y - radius_m * radius_m;
  if (a < 1e-18) {
    span = {-1e9, 1e9};
    return c <= 0;
  }
  const double under = b * b - a * c;
  if (under < 0) {
    return false;
  }
  const double root = std::sqrt(under);
  span = {(-b - root) / a, (-b + root) / a};
  return true;
}

Vec3 along(const Vec3& from, const Vec3& way, double t) {
  return from + way * t;
}

/// An angle in one of a ring's sectors at that radius.
bool in_sector(const SectorRing& ring, const Vec3& point) {
  if (ring.full()) {
    return true;
  }
  const double radius_m = std::hypot(point.x, point.y);
  const double angle_rad = std::atan2(-point.x, point.y);
  constexpr double turn = 2 * std::numbers::pi;
  return std::ranges::any_of(ring.sectors, [&](const Sector& sector) {
    const double from = sector.from.at(std::max(radius_m, std::abs(sector.from.offset_m)));
    const double to = sector.to.at(std::max(radius_m, std::abs(sector.to.offset_m)));
    double past = std::fmod(angle_rad - from, turn);
    past = past < 0 ? past + turn : past;
    return past < to - from;
  });
}

/// Whether metal is on a stretch of the line: looked for at its ends and between.
bool metal_on(const SectorRing& ring, const Vec3& from, const Vec3& way, const Span& span,
              const Cover& cover, const Cut& cut) {
  constexpr std::array<double, 3> looks{0.02, 0.5, 0.98};
  return std::ranges::any_of(looks, [&](double look) {
    const Vec3 point = along(from, way, span.from + look * (span.to - span.from));
    if (cover.cut) {
      // The line is in the part's own frame; the wedge is in the place's.
      const double c = std::cos(cover.turn_rad);
      const double s = std::sin(cover.turn_rad);
      const Vec3 there{point.x * c - point.y * s + cover.aside_m, point.x * s + point.y * c,
                       point.z};
      if (depth_in_wedge_m(cut, there) > 0) {
        return false;
      }
    }
    return in_sector(ring, point);
  });
}

bool ring_hides(const SectorRing& ring, const Vec3& from, const Vec3& way, const Cover& cover,
                const Cut& cut) {
  Span span{0, 1};
  if (std::abs(way.z) > 1e-12) {
    const double low = (ring.low_m - from.z) / way.z;
    const double high = (ring.high_m - from.z) / way.z;
    span.from = std::max(span.from, std::min(low, high));
    span.to = std::min(span.to, std::max(low, high));
  } else if (from.z < ring.low_m || from.z > ring.high_m) {
    return false;
  }
  Span outer;
  if (span.from >= span.to || !within_radius(from, way, ring.outer_m, outer)) {
    return false;
  }
  span = {std::max(span.from, outer.from), std::min(span.to, outer.to)};
  if (span.from >= span.to) {
    return false;
  }
  Span bore;
  if (ring.inner_m <= 0 || !within_radius(from, way, ring.inner_m, bore)) {
    return metal_on(ring, from, way, span, cover, cut);
  }
  const Span before{span.from, std::min(span.to, bore.from)};
  const Span after{std::max(span.from, bore.to), span.to};
  return (before.from < before.to && metal_on(ring, from, way, before, cover, cut)) ||
         (after.from < after.to && metal_on(ring, from, way, after, cover, cut));
}

bool hides(const Cover& cover, const Vec3& point, const Vec3& eye, const Cut& cut) {
  // Into the part's own frame.
  const auto own = [&](const Vec3& p) {
    const double c = std::cos(cover.turn_rad);
    const double s = std::sin(cover.turn_rad);
    const double x = p.x - cover.aside_m;
    return Vec3{x * c + p.y * s, p.y * c - x * s, p.z - cover.height_m};
  };
  const Vec3 from = own(point);
  const Vec3 way = own(eye) - from;
  return std::ranges::any_of(cover.solid->rings, [&](const SectorRing& ring) {
    return ring_hides(ring, from, way, cover, cut);
  });
}

/// The turn and the shift of a pose, without the shift.
Vec3 placed_way(const Pose& pose, const Vec3& way) {
  return placed_point(pose, way) - placed_point(pose, {});
}

/// A quick no: the line never comes within the part's height.
struct Reach {
  double low_m = 0;
  double high_m = 0;
};

} // namespace

Vec3 eye_of(const Camera& camera) {
  const double c = std::cos(camera.turn_rad);
  const double s = std::sin(camera.turn_rad);
  const double level = std::cos(camera.rise_rad);
  const double rise = std::sin(camera.rise_rad);
  const Vec3 toward{-s * level, c * level, rise};
  Vec3 right{-c, -s, 0};
  Vec3 up = cross(right, toward * -1);
  if (camera.axis_level) {
    const Vec3 along_axis = up;
    up = right * -1;
    right = along_axis;
  }
  return Vec3{0, 0, camera.look_at_m} + right * camera.pan_x_m + up * camera.pan_y_m +
         toward * camera.distance_m;
}

const std::vector<SurfacePlaces::Place>&
SurfacePlaces::of(const std::shared_ptr<const Mesh>& mesh) {
  const auto [place, fresh] = made_.try_emplace(mesh.get());
  Made& made = place->second;
  if (!fresh) {
    return made.places;
  }
  made.source = mesh;
  std::vector<double> up_to_m2;
  double area_m2 = 0;
  const auto corner = [&](std::size_t triangle, std::size_t k) {
    return mesh->positions_m[mesh->triangles[triangle][k]];
  };
  for (std::size_t t = 0; t < mesh->triangles.size(); ++t) {
    area_m2 += length(cross(corner(t, 1) - corner(t, 0), corner(t, 2) - corner(t, 0))) / 2;
    up_to_m2.push_back(area_m2);
  }
  if (!(area_m2 > 0)) {
    return made.places;
  }
  // Steps of the golden section fill a line evenly however many are taken; so do these two.
  double at = 0.5;
  double u = 0.5;
  double v = 0.5;
  for (std::size_t i = 0; i < most_places; ++i) {
    at = std::fmod(at + 0.6180339887498949, 1.0);
    u = std::fmod(u + 0.7548776662466927, 1.0);
    v = std::fmod(v + 0.5698402909980532, 1.0);
    const auto found = std::ranges::lower_bound(up_to_m2, at * area_m2);
    const auto t = static_cast<std::size_t>(std::min<std::ptrdiff_t>(
        found - up_to_m2.begin(), static_cast<std::ptrdiff_t>(up_to_m2.size()) - 1));
    const bool folded = u + v > 1;
    const Vec3 one = (corner(t, 1) - corner(t, 0)) * (folded ? 1 - u : u);
    const Vec3 other = (corner(t, 2) - corner(t, 0)) * (folded ? 1 - v : v);
    const Vec3 normal = cross(corner(t, 1) - corner(t, 0), corner(t, 2) - corner(t, 0));
    made.places.push_back({corner(t, 0) + one + other, unit_or(normal, {0, 0, 1})});
  }
  return made.places;
}

CoverShares cover_of_hand(const Picture& picture, const std::vector<Cover>& covers,
                          SurfacePlaces& places) {
  CoverShares made;
  made.shares.assign(covers.size(), 0);
  std::vector<const PictureItem*> hand;
  for (const PictureItem& item : picture.items) {
    if (item.role == Role::in_hand && item.mesh != nullptr) {
      hand.push_back(&item);
    }
  }
  if (hand.empty()) {
    return made;
  }
  std::vector<Reach> reach;
  for (const Cover& cover : covers) {
    reach.push_back(
        {cover.solid->low_m() + cover.height_m, cover.solid->high_m() + cover.height_m});
  }
  const Vec3 eye = eye_of(picture.camera);
  const std::size_t each = std::max<std::size_t>(most_places / hand.size(), 4);
  double seen = 0;
  for (const PictureItem* item : hand) {
    const auto& all = places.of(item->mesh);
    for (std::size_t i = 0; i < std::min(each, all.size()); ++i) {
      const Vec3 point = placed_point(item->pose, all[i].point_m);
      const Vec3 sight = eye - point;
      if (dot(placed_way(item->pose, all[i].normal), sight) <= 0 ||
          (item->cut && depth_in_wedge_m(picture.cut, point) > 0)) {
        continue;
      }
      seen += 1;
      const Vec3 start = point + unit_or(sight, {0, 0, 1}) * off_surface_m;
      bool any = false;
      for (std::size_t k = 0; k < covers.size(); ++k) {
        const bool passes =
            std::max(start.z, eye.z) < reach[k].low_m || std::min(start.z, eye.z) > reach[k].high_m;
        if (!passes && hides(covers[k], start, eye, picture.cut)) {
          made.shares[k] += 1;
          any = true;
        }
      }
      made.covered += any ? 1 : 0;
    }
  }
  if (seen > 0) {
    made.covered /= seen;
    for (double& share : made.shares) {
      share /= seen;
    }
  }
  return made;
}

std::vector<std::string> seen_through(const CoverShares& shares, const std::vector<Cover>& covers,
                                      SeeThrough when, const std::vector<std::string>& before) {
  std::vector<std::string> made;
  const bool already = !before.empty();
  if (when == SeeThrough::off || (when == SeeThrough::automatic &&
                                  shares.covered < (already ? ends_covered : begins_covered))) {
    return made;
  }
  const bool always = when == SeeThrough::always;
  for (std::size_t k = 0; k < covers.size(); ++k) {
    const bool was = std::ranges::find(before, covers[k].id) != before.end();
    const double enough = always ? (was ? ends_share_always : begins_share_always)
                                 : (was ? ends_share : begins_share);
    if (shares.shares[k] >= enough) {
      made.push_back(covers[k].id);
    }
  }
  std::ranges::sort(made);
  return made;
}

} // namespace lugline
