#include "scene/recipe/planar.h"

#include "scene/recipe/crossings.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double turn_rad = 2 * pi;

/// Sorted, and of several within merge_m only the lowest.
std::vector<double> distinct(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  std::vector<double> kept;
  for (const double v : values) {
    if (kept.empty() || v - kept.back() > merge_m) {
      kept.push_back(v);
    }
  }
  return kept;
}

int index_of(const std::vector<double>& kept, double value) {
  const auto at = std::lower_bound(kept.begin(), kept.end(), value - merge_m);
  assert(at != kept.end());
  return static_cast<int>(at - kept.begin());
}

struct Circle {
  double r_m = 0;
  std::vector<double> nodes_rad; ///< where flanks end, rising, in [0, one turn)
  std::vector<int> node_at;      ///< position of each node in `ring`
  std::vector<int> ring;         ///< vertices by rising angle; the first repeated nowhere
  std::vector<int> below;        ///< for the arc from ring[k] on: the cell inside the circle
  std::vector<int> above;        ///< … and the one outside

  [[nodiscard]] double merge_rad() const { return std::max(1e-9, merge_m / r_m); }
};

struct BandFlank {
  Flank flank;
  double middle_rad = 0; ///< reduced, at the band's middle radius
  int inner_node = 0;
  int outer_node = 0;
};

/// A ring that reaches across a band, and where it is full at the band's middle.
struct BandRing {
  struct Span {
    double from_rad = 0; ///< in [0, one turn)
    double wide_rad = 0;
  };
  std::size_t ring = 0;
  std::vector<Span> spans; ///< by rising from_rad; empty: all round

  [[nodiscard]] bool holds(double angle_rad) const {
    if (spans.empty()) {
      return true;
    }
    // Sectors are disjoint: only the last that begins before the angle can hold it.
    const double a = reduced_turn(angle_rad);
    auto next = std::upper_bound(spans.begin(), spans.end(), a,
                                 [](double at, const Span& span) { return at < span.from_rad; });
    const Span& span = next == spans.begin() ? spans.back() : *(next - 1);
    return reduced_turn(a - span.from_rad) < span.wide_rad;
  }
};

struct Band {
  std::vector<BandRing> rings;
  std::vector<BandFlank> flanks; ///< by rising middle angle
};

class Planner {
public:
  Planner(const Solid& solid, const std::string& material, const MeshOptions& options,
          const ExtraCuts& cuts)
      : solid_(solid), options_(options) {
    plan_.materials.push_back(material);
    for (const SectorRing& ring : solid.rings) {
      assert(ring.outer_m > ring.inner_m && ring.high_m > ring.low_m && ring.inner_m >= 0);
      materials_.push_back(material_index(ring.material));
    }
    find_heights(cuts);
    find_radii(cuts);
    find_bands();
    find_nodes();
    place_vertices();
    build_cells();
    build_circle_edges();
  }

  Plan take() { return std::move(plan_); }

private:
  int material_index(const std::string& written) {
    if (written.empty()) {
      return 0;
    }
    const auto at = std::find(plan_.materials.begin(), plan_.materials.end(), written);
    if (at != plan_.materials.end()) {
      return static_cast<int>(at - plan_.materials.begin());
    }
    plan_.materials.push_back(written);
    return static_cast<int>(plan_.materials.size()) - 1;
  }

  void find_heights(const ExtraCuts& cuts) {
    std::vector<double> all = cuts.heights_m;
    for (const SectorRing& ring : solid_.rings) {
      all.push_back(ring.low_m);
      all.push_back(ring.high_m);
    }
    plan_.heights_m = distinct(std::move(all));
    for (const double cut_m : cuts.heights_m) {
      cut_levels_.push_back(index_of(plan_.heights_m, cut_m));
    }
    std::sort(cut_levels_.begin(), cut_levels_.end());
  }

  /// Every radius, and those at which flanks of one band cross.
  void find_radii(const ExtraCuts& cuts) {
    std::vector<double> all;
    for (const SectorRing& ring : solid_.rings) {
      all.push_back(ring.inner_m);
      all.push_back(ring.outer_m);
    }
    std::vector<double> radii_m = distinct(all);
    if (!radii_m.empty()) {
      for (const double cut_m : cuts.radii_m) {
        if (cut_m > radii_m.front() && cut_m < radii_m.back()) {
          all.push_back(cut_m);
        }
      }
      radii_m = distinct(all);
    }
    std::vector<double> crossings_m;
    for (std::size_t i = 0; i + 1 < radii_m.size(); ++i) {
      find_crossings(radii_m[i], radii_m[i + 1], crossings_m);
    }
    radii_m.insert(radii_m.end(), crossings_m.begin(), crossings_m.end());
    for (const double r_m : distinct(radii_m)) {
      circles_.push_back({r_m, {}, {}, {}, {}, {}});
    }
  }

  /// Whether the ring reaches across the band about this radius.
  [[nodiscard]] static bool spans(const SectorRing& ring, double middle_m) {
    return ring.inner_m < middle_m && ring.outer_m > middle_m;
  }

  void find_crossings(double inner_m, double outer_m, std::vector<double>& crossings_m) const {
    std::vector<Flank> flanks;
    for (const SectorRing& ring : solid_.rings) {
      if (spans(ring, (inner_m + outer_m) / 2)) {
        for (const Sector& sector : ring.sectors) {
          flanks.push_back(sector.from);
          flanks.push_back(sector.to);
        }
      }
    }
    const std::vector<double> found_m = crossing_radii(flanks, inner_m, outer_m, merge_m);
    crossings_m.insert(crossings_m.end(), found_m.begin(), found_m.end());
  }

  void find_bands() {
    for (std::size_t i = 0; i + 1 < circles_.size(); ++i) {
      Band band;
      const double middle_m = (circles_[i].r_m + circles_[i + 1].r_m) / 2;
      for (std::size_t k = 0; k < solid_.rings.size(); ++k) {
        const SectorRing& ring = solid_.rings[k];
        if (!spans(ring, middle_m)) {
          continue;
        }
        BandRing across{k, {}};
        for (const Sector& sector : ring.sectors) {
          const double from_rad = sector.from.at(middle_m);
          const double to_rad = sector.to.at(middle_m);
          across.spans.push_back({reduced_turn(from_rad), to_rad - from_rad});
          band.flanks.push_back({sector.from, reduced_turn(from_rad), 0, 0});
          band.flanks.push_back({sector.to, reduced_turn(to_rad), 0, 0});
        }
        std::sort(across.spans.begin(), across.spans.end(),
                  [](const BandRing::Span& a, const BandRing::Span& b) {
                    return a.from_rad < b.from_rad;
                  });
        band.rings.push_back(std::move(across));
      }
      std::sort(band.flanks.begin(), band.flanks.end(),
                [](const BandFlank& a, const BandFlank& b) { return a.middle_rad < b.middle_rad; });
      bands_.push_back(std::move(band));
    }
  }

  static void merge_nodes(Circle& circle) {
    std::vector<double>& nodes = circle.nodes_rad;
    std::sort(nodes.begin(), nodes.end());
    std::vector<double> kept;
    for (const double a : nodes) {
      if (kept.empty() || a - kept.back() > circle.merge_rad()) {
        kept.push_back(a);
      }
    }
    while (kept.size() > 1 && kept.front() + turn_rad - kept.back() <= circle.merge_rad()) {
      kept.pop_back();
    }
    nodes = std::move(kept);
  }

  static int node_of(const Circle& circle, double angle_rad) {
    const double a = reduced_turn(angle_rad);
    int best = 0;
    double best_apart = turn_rad;
    const auto next = std::lower_bound(circle.nodes_rad.begin(), circle.nodes_rad.end(), a);
    const int count = static_cast<int>(circle.nodes_rad.size());
    const int at = static_cast<int>(next - circle.nodes_rad.begin());
    for (const int candidate : {(at + count - 1) % count, at % count, (at + 1) % count}) {
      const double apart =
          std::abs(signed_turn(circle.nodes_rad[static_cast<std::size_t>(candidate)] - a));
      if (apart < best_apart) {
        best = candidate;
        best_apart = apart;
      }
    }
    return best;
  }

  void find_nodes() {
    for (std::size_t i = 0; i < bands_.size(); ++i) {
      for (const BandFlank& f : bands_[i].flanks) {
        if (circles_[i].r_m > 0) {
          circles_[i].nodes_rad.push_back(reduced_turn(f.flank.at(circles_[i].r_m)));
        }
        circles_[i + 1].nodes_rad.push_back(reduced_turn(f.flank.at(circles_[i + 1].r_m)));
      }
    }
    for (Circle& circle : circles_) {
      merge_nodes(circle);
    }
    for (std::size_t i = 0; i < bands_.size(); ++i) {
      for (BandFlank& f : bands_[i].flanks) {
        if (circles_[i].r_m > 0) {
          f.inner_node = node_of(circles_[i], f.flank.at(circles_[i].r_m));
        }
        f.outer_node = node_of(circles_[i + 1], f.flank.at(circles_[i + 1].r_m));
      }
      std::vector<BandFlank>& flanks = bands_[i].flanks;
      const auto same = [](const BandFlank& a, const BandFlank& b) {
        return a.inner_node == b.inner_node && a.outer_node == b.outer_node &&
               std::abs(signed_turn(a.middle_rad - b.middle_rad)) < 1e-3;
      };
      flanks.erase(std::unique(flanks.begin(), flanks.end(), same), flanks.end());
      if (flanks.size() > 1 && same(flanks.front(), flanks.back())) {
        flanks.pop_back();
      }
    }
  }

  /// The longest step on a circle. A chord must also stay well outside the
  /// next circle in, or the plan would fold where a band is thin.
  [[nodiscard]] double step_rad(std::size_t i) const {
    const double r_m = circles_[i].r_m;
    double step = turn_rad / options_.most_segments;
    const double wanted_m = options_.chord_tolerance_m;
    if (wanted_m < r_m) {
      step = std::max(step, 2 * std::acos(1 - wanted_m / r_m));
    } else {
      step = turn_rad / 3;
    }
    step = std::min(step, turn_rad / 24);
    if (i > 0 && circles_[i - 1].r_m > 0) {
      const double sagitta_m = (r_m - circles_[i - 1].r_m) / 8;
      step = std::min(step, 2 * std::acos(1 - sagitta_m / r_m));
    }
    return std::max(step, turn_rad / 4096);
  }

  void place_vertices() {
    for (std::size_t i = 0; i < circles_.size(); ++i) {
      Circle& circle = circles_[i];
      if (circle.r_m <= 0) {
        circle.ring.push_back(add_vertex(0, 0));
        continue;
      }
      const double step = step_rad(i);
      if (circle.nodes_rad.empty()) {
        const int count = round_count(turn_rad / step);
        for (int k = 0; k < count; ++k) {
          circle.ring.push_back(add_vertex(circle.r_m, turn_rad * k / count));
        }
      }
      for (std::size_t k = 0; k < circle.nodes_rad.size(); ++k) {
        const bool last = k + 1 == circle.nodes_rad.size();
        const double from = circle.nodes_rad[k];
        const double to = last ? circle.nodes_rad[0] + turn_rad : circle.nodes_rad[k + 1];
        const int pieces = std::max(1, static_cast<int>(std::ceil((to - from) / step - 1e-6)));
        circle.node_at.push_back(static_cast<int>(circle.ring.size()));
        for (int p = 0; p < pieces; ++p) {
          circle.ring.push_back(add_vertex(circle.r_m, from + (to - from) * p / pieces));
        }
      }
      circle.below.assign(circle.ring.size(), -1);
      circle.above.assign(circle.ring.size(), -1);
    }
  }

  /// A count with many divisors, so that neighbouring circles go together.
  static int round_count(double least) {
    for (const int count : {24, 36, 48, 60, 72, 90, 120, 144, 180, 240, 360}) {
      if (count >= least - 1e-6) {
        return count;
      }
    }
    return static_cast<int>(std::ceil(least / 24 - 1e-6)) * 24;
  }

  int add_vertex(double r_m, double angle_rad) {
    plan_.vertices.push_back({-r_m * std::sin(angle_rad), r_m * std::cos(angle_rad), r_m});
    return static_cast<int>(plan_.vertices.size()) - 1;
  }

  /// The vertices of a circle from one position to another, and the cell noted
  /// on every arc between them.
  static std::vector<int> chain(Circle& circle, int from, int to, bool whole_turn, int cell,
                                bool cell_is_outside) {
    const int count = static_cast<int>(circle.ring.size());
    if (circle.r_m <= 0) {
      return {circle.ring[0]};
    }
    int arcs = ((to - from) % count + count) % count;
    if (arcs == 0 && whole_turn) {
      arcs = count;
    }
    std::vector<int> vertices;
    for (int k = 0; k <= arcs; ++k) {
      const auto at = static_cast<std::size_t>((from + k) % count);
      vertices.push_back(circle.ring[at]);
      if (k < arcs) {
        (cell_is_outside ? circle.above : circle.below)[at] = cell;
      }
    }
    return vertices;
  }

  [[nodiscard]] std::vector<PlanSlab> slabs_at(const Band& band, double angle_rad) const {
    std::vector<PlanSlab> slabs;
    for (const BandRing& across : band.rings) {
      const SectorRing& ring = solid_.rings[across.ring];
      const PlanSlab slab{index_of(plan_.heights_m, ring.low_m),
                          index_of(plan_.heights_m, ring.high_m), materials_[across.ring]};
      if (slab.low < slab.high && across.holds(angle_rad)) {
        slabs.push_back(slab);
      }
    }
    std::sort(slabs.begin(), slabs.end(),
              [](const PlanSlab& a, const PlanSlab& b) { return a.low < b.low; });
    std::vector<PlanSlab> joined;
    for (const PlanSlab& slab : slabs) {
      if (!joined.empty() && slab.low <= joined.back().high &&
          slab.material == joined.back().material) {
        joined.back().high = std::max(joined.back().high, slab.high);
      } else if (joined.empty() || slab.high > joined.back().high) {
        const int low = joined.empty() ? slab.low : std::max(slab.low, joined.back().high);
        joined.push_back({low, slab.high, slab.material});
      }
    }
    return with_cuts(joined);
  }

  /// Slabs parted at the levels where a mesh is wanted to be cut.
  [[nodiscard]] std::vector<PlanSlab> with_cuts(const std::vector<PlanSlab>& slabs) const {
    if (cut_levels_.empty()) {
      return slabs;
    }
    std::vector<PlanSlab> parted;
    for (PlanSlab slab : slabs) {
      for (const int level : cut_levels_) {
        if (level > slab.low && level < slab.high) {
          parted.push_back({slab.low, level, slab.material});
          slab.low = level;
        }
      }
      parted.push_back(slab);
    }
    return parted;
  }

  void build_cells() {
    for (std::size_t i = 0; i < bands_.size(); ++i) {
      const Band& band = bands_[i];
      if (band.flanks.empty()) {
        whole_cell(i);
        continue;
      }
      const std::size_t count = band.flanks.size();
      const int first_cell = static_cast<int>(plan_.cells.size());
      for (std::size_t k = 0; k < count; ++k) {
        const BandFlank& from = band.flanks[k];
        const BandFlank& to = band.flanks[(k + 1) % count];
        double span = reduced_turn(to.middle_rad - from.middle_rad);
        if (count == 1) {
          span = turn_rad;
        }
        const int cell = static_cast<int>(plan_.cells.size());
        PlanCell made;
        made.inner = chain(circles_[i], node_position(circles_[i], from.inner_node),
                           node_position(circles_[i], to.inner_node), span > pi, cell, true);
        made.outer = chain(circles_[i + 1], node_position(circles_[i + 1], from.outer_node),
                           node_position(circles_[i + 1], to.outer_node), span > pi, cell, false);
        made.slabs = slabs_at(band, from.middle_rad + span / 2);
        made.band = static_cast<int>(i);
        const int before = first_cell + static_cast<int>((k + count - 1) % count);
        plan_.edges.push_back({made.inner.front(), made.outer.front(), cell, before, false});
        plan_.cells.push_back(std::move(made));
      }
    }
  }

  static int node_position(const Circle& circle, int node) {
    return circle.r_m <= 0 ? 0 : circle.node_at[static_cast<std::size_t>(node)];
  }

  void whole_cell(std::size_t i) {
    const int cell = static_cast<int>(plan_.cells.size());
    PlanCell made;
    Circle& inner = circles_[i];
    Circle& outer = circles_[i + 1];
    made.inner = chain(inner, 0, 0, true, cell, true);
    // The chains begin at corners that are near each other.
    int start = 0;
    if (inner.r_m > 0) {
      const PlanVertex& first = plan_.vertices[static_cast<std::size_t>(made.inner.front())];
      double nearest = 1e300;
      for (std::size_t k = 0; k < outer.ring.size(); ++k) {
        const PlanVertex& v = plan_.vertices[static_cast<std::size_t>(outer.ring[k])];
        const double far = std::hypot(v.x_m - first.x_m, v.y_m - first.y_m);
        if (far < nearest - 1e-12) {
          nearest = far;
          start = static_cast<int>(k);
        }
      }
    }
    made.outer = chain(outer, start, start, true, cell, false);
    made.slabs = slabs_at(bands_[i], 0);
    made.band = static_cast<int>(i);
    plan_.cells.push_back(std::move(made));
  }

  void build_circle_edges() {
    for (const Circle& circle : circles_) {
      if (circle.r_m <= 0) {
        continue;
      }
      const std::size_t count = circle.ring.size();
      for (std::size_t k = 0; k < count; ++k) {
        plan_.edges.push_back(
            {circle.ring[k], circle.ring[(k + 1) % count], circle.below[k], circle.above[k], true});
      }
    }
  }

  const Solid& solid_;
  const MeshOptions& options_;
  std::vector<int> materials_; ///< of each ring
  std::vector<int> cut_levels_;
  std::vector<Circle> circles_;
  std::vector<Band> bands_;
  Plan plan_;
};

} // namespace

Plan plan_of(const Solid& solid, const std::string& material, const MeshOptions& options,
             const ExtraCuts& cuts) {
  return Planner(solid, material, options, cuts).take();
}

} // namespace lugline
