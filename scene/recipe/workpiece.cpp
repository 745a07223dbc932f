#include "scene/recipe/workpiece.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace lugline {

namespace {

constexpr double turn_rad = 2 * std::numbers::pi;
constexpr double same_m = 1e-9;
constexpr double same_rad = 1e-9;

/// Into [0, one turn), and 0 where it is a whole turn but for rounding.
double reduced(double angle_rad) {
  double a = std::fmod(angle_rad, turn_rad);
  a = a < 0 ? a + turn_rad : a;
  return a > turn_rad - same_rad ? 0 : a;
}

Flank moved(Flank flank, double by_rad) {
  flank.angle_rad += by_rad;
  return flank;
}

/// The flank, wound by whole turns so that at the radius it follows `after`
/// within a turn.
Flank wound_after(const Flank& flank, double after_rad, double r_m) {
  const double ahead = reduced(flank.at(r_m) - after_rad);
  return moved(flank, after_rad + ahead - flank.at(r_m));
}

/// Whether a stands before b at both radii, or touches it.
bool before(const Flank& a, const Flank& b, double inner_m, double outer_m) {
  return a.at(inner_m) <= b.at(inner_m) + same_rad && a.at(outer_m) <= b.at(outer_m) + same_rad;
}

bool has_width(const Sector& s, double inner_m, double outer_m) {
  const double middle_m = (inner_m + outer_m) / 2;
  return s.to.at(middle_m) - s.from.at(middle_m) > same_rad;
}

bool sectors_meet(const SectorRing& a, const SectorRing& b, double r_m) {
  if (a.full() || b.full()) {
    return true;
  }
  for (const Sector& p : a.sectors) {
    for (const Sector& q : b.sectors) {
      const double p_span = p.to.at(r_m) - p.from.at(r_m);
      const double q_span = q.to.at(r_m) - q.from.at(r_m);
      const double ahead = reduced(q.from.at(r_m) - p.from.at(r_m));
      if (ahead < p_span - same_rad || turn_rad - ahead < q_span - same_rad) {
        return true;
      }
    }
  }
  return false;
}

std::string name_of(const SectorRing& ring) {
  return ring.feature.empty() ? "a ring" : "the " + ring.feature;
}

} // namespace

int first_meeting(const std::vector<Sector>& sectors, double inner_m, double outer_m) {
  for (std::size_t k = 0; k < sectors.size(); ++k) {
    Flank next = sectors[(k + 1) % sectors.size()].from;
    if (k + 1 == sectors.size()) {
      next.angle_rad += turn_rad;
    }
    for (const double r_m : {inner_m, outer_m}) {
      const double from = sectors[k].from.at(r_m);
      const double to = sectors[k].to.at(r_m);
      if (!(to > from) || !(next.at(r_m) > to + same_rad)) {
        return static_cast<int>(k);
      }
    }
  }
  return -1;
}

bool sectors_without(const std::vector<Sector>& whole, const std::vector<Sector>& gone,
                     double inner_m, double outer_m, std::vector<Sector>& left, bool& none_left) {
  none_left = gone.empty();
  if (gone.empty()) {
    return true;
  }
  const double middle_m = (inner_m + outer_m) / 2;
  if (whole.empty()) {
    left = between(gone);
    return true;
  }
  for (const Sector& piece : whole) {
    Flank from = piece.from;
    const double start_rad = piece.from.at(middle_m);
    // By their ends, as they come after the piece's beginning.
    std::vector<Sector> cuts;
    for (const Sector& cut : gone) {
      const Flank to = wound_after(cut.to, start_rad, middle_m);
      const double wind = to.angle_rad - cut.to.angle_rad;
      cuts.push_back({moved(cut.from, wind), to});
      cuts.push_back({moved(cut.from, wind + turn_rad), moved(to, turn_rad)});
    }
    std::ranges::sort(cuts, {}, [&](const Sector& s) { return s.to.at(middle_m); });
    for (const Sector& cut : cuts) {
      if (before(piece.to, cut.from, inner_m, outer_m)) {
        break;
      }
      if (before(from, cut.from, inner_m, outer_m)) {
        if (has_width({from, cut.from}, inner_m, outer_m)) {
          left.push_back({from, cut.from});
        }
      } else if (!before(cut.from, from, inner_m, outer_m)) {
        return false;
      }
      if (before(from, cut.to, inner_m, outer_m)) {
        from = cut.to;
      } else if (!before(cut.to, from, inner_m, outer_m)) {
        return false;
      }
    }
    if (before(from, piece.to, inner_m, outer_m)) {
      if (has_width({from, piece.to}, inner_m, outer_m)) {
        left.push_back({from, piece.to});
      }
    } else if (!before(piece.to, from, inner_m, outer_m)) {
      return false;
    }
  }
  none_left = left.empty();
  return true;
}

std::string Workpiece::cut(const SectorRing& region) {
  std::vector<SectorRing> kept;
  for (const SectorRing& ring : solid_.rings) {
    const double inner_m = std::max(ring.inner_m, region.inner_m);
    const double outer_m = std::min(ring.outer_m, region.outer_m);
    const double low_m = std::max(ring.low_m, region.low_m);
    const double high_m = std::min(ring.high_m, region.high_m);
    if (outer_m - inner_m < same_m || high_m - low_m < same_m) {
      kept.push_back(ring);
      continue;
    }
    std::vector<Sector> left;
    bool none_left = false;
    if (!sectors_without(ring.sectors, region.sectors, inner_m, outer_m, left, none_left)) {
      return "cuts across a slanting flank of " + name_of(ring);
    }
    const auto keep = [&](double r0, double r1, double z0, double z1) {
      if (r1 - r0 > same_m && z1 - z0 > same_m) {
        SectorRing piece = ring;
        piece.inner_m = r0;
        piece.outer_m = r1;
        piece.low_m = z0;
        piece.high_m = z1;
        kept.push_back(std::move(piece));
      }
    };
    keep(ring.inner_m, ring.outer_m, ring.low_m, low_m);
    keep(ring.inner_m, inner_m, low_m, high_m);
    keep(outer_m, ring.outer_m, low_m, high_m);
    if (!none_left) {
      SectorRing rest = ring;
      rest.inner_m = inner_m;
      rest.outer_m = outer_m;
      rest.low_m = low_m;
      rest.high_m = high_m;
      rest.sectors = std::move(left);
      kept.push_back(std::move(rest));
    }
    keep(ring.inner_m, ring.outer_m, high_m, ring.high_m);
  }
  solid_.rings = std::move(kept);
  return {};
}

std::string Workpiece::overlap() const {
  for (std::size_t i = 0; i < solid_.rings.size(); ++i) {
    for (std::size_t j = i + 1; j < solid_.rings.size(); ++j) {
      const SectorRing& a = solid_.rings[i];
      const SectorRing& b = solid_.rings[j];
      const double inner_m = std::max(a.inner_m, b.inner_m);
      const double outer_m = std::min(a.outer_m, b.outer_m);
      if (outer_m - inner_m < same_m ||
          std::min(a.high_m, b.high_m) - std::max(a.low_m, b.low_m) < same_m) {
        continue;
      }
      for (const double r_m : {inner_m, (inner_m + outer_m) / 2, outer_m}) {
        if (sectors_meet(a, b, r_m)) {
          return name_of(a) + " and " + name_of(b) + " take up the same room";
        }
      }
    }
  }
  return {};
}

} // namespace lugline
