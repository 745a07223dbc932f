#include "viewer/draw/section.h"

#include "viewer/draw/view.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace lugline {
namespace {

/// Heights nearer than this are one height; an opening lower than this is a crack, not a hole.
constexpr double same_height_m = 2e-8;
constexpr double crack_m = 2e-6;
constexpr double inside_m = 7e-8;

struct Segment {
  double low_r = 0;
  double low_z = 0;
  double high_r = 0;
  double high_z = 0;
  std::size_t material = 0;
  bool opens = false; ///< solid lies on its larger-radius side, as the triangle says

  [[nodiscard]] double r_at(double z) const {
    if (low_r == high_r)
      return low_r;
    const double span = high_z - low_z;
    const double t = span > 0 ? std::clamp((z - low_z) / span, 0.0, 1.0) : 0.0;
    return low_r + (high_r - low_r) * t;
  }
};

/// A vertex as the cut sees it: how far before the plane, and where in it.
struct PlaneVertex {
  double off_m = 0;
  double r_m = 0;
  double z_m = 0;
};

std::vector<PlaneVertex> seen_by_plane(const Mesh& mesh, const Pose& pose,
                                       const std::optional<Stretch>& stretch, double angle_rad,
                                       KeptSide kept) {
  const double shift = kept == KeptSide::counter_clockwise ? inside_m : -inside_m;
  const glm::dmat4 place = place_from_part(pose);
  const glm::dvec3 along = outward(angle_rad);
  const glm::dvec3 across(-along.y, along.x, 0);
  std::vector<PlaneVertex> seen;
  seen.reserve(mesh.positions_m.size());
  for (const Vec3& position : mesh.positions_m) {
    const glm::dvec3 p(place * glm::dvec4(stretched_point(position, stretch), 1.0));
    seen.push_back({glm::dot(p, across) - shift, glm::dot(p, along), p.z});
  }
  return seen;
}

/// Where an edge meets the plane. The ends are taken in an order that depends
/// on them alone, so that both triangles of an edge get the same point.
PlaneVertex crossing(const PlaneVertex& a, const PlaneVertex& b) {
  const bool swap = b.off_m < a.off_m;
  const PlaneVertex& from = swap ? b : a;
  const PlaneVertex& to = swap ? a : b;
  const double t = from.off_m / (from.off_m - to.off_m);
  return {0, from.r_m + (to.r_m - from.r_m) * t, from.z_m + (to.z_m - from.z_m) * t};
}

std::vector<Segment> cut_triangles(const Mesh& mesh, const std::vector<PlaneVertex>& seen,
                                   Section& section) {
  std::vector<std::size_t> material_of(mesh.triangles.size(), 0);
  std::map<std::string, std::size_t> known;
  const auto material_index = [&](const std::string& word) {
    const auto [place, fresh] = known.emplace(word, section.materials.size());
    if (fresh)
      section.materials.push_back(word);
    return place->second;
  };
  for (const MaterialRange& range : mesh.ranges) {
    const std::size_t index = material_index(range.material);
    const std::size_t last = std::min<std::size_t>(
        mesh.triangles.size(), std::size_t{range.first_triangle} + range.triangle_count);
    for (std::size_t i = range.first_triangle; i < last; ++i)
      material_of[i] = index;
  }
  if (section.materials.empty())
    material_index("");
  section.outline_m.assign(section.materials.size(), 0.0);

  std::vector<Segment> segments;
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    const auto& triangle = mesh.triangles[i];
    const PlaneVertex* v[3] = {&seen[triangle[0]], &seen[triangle[1]], &seen[triangle[2]]};
    // A vertex in the plane counts as before it: each closed loop stays closed.
    const bool before[3] = {v[0]->off_m >= 0, v[1]->off_m >= 0, v[2]->off_m >= 0};
    PlaneVertex ends[2];
    int count = 0;
    for (int e = 0; e < 3 && count < 2; ++e)
      if (before[e] != before[(e + 1) % 3])
        ends[count++] = crossing(*v[e], *v[(e + 1) % 3]);
    if (count != 2)
      continue;
    if (ends[1].z_m < ends[0].z_m)
      std::swap(ends[0], ends[1]);
    // The outward normal's share along r; (off, r, z) is a left-handed frame.
    const double outward_r = -((v[1]->z_m - v[0]->z_m) * (v[2]->off_m - v[0]->off_m) -
                               (v[1]->off_m - v[0]->off_m) * (v[2]->z_m - v[0]->z_m));
    if (ends[0].r_m > 0 || ends[1].r_m > 0)
      section.outline_m[material_of[i]] +=
          std::hypot(ends[1].r_m - ends[0].r_m, ends[1].z_m - ends[0].z_m);
    segments.push_back(
        {ends[0].r_m, ends[0].z_m, ends[1].r_m, ends[1].z_m, material_of[i], outward_r < 0});
  }
  return segments;
}

/// The heights that bound the slabs: segment ends, each group of near ones made one.
std::vector<double> slab_heights(std::vector<Segment>& segments) {
  std::vector<double> all;
  all.reserve(segments.size() * 2);
  for (const Segment& s : segments) {
    all.push_back(s.low_z);
    all.push_back(s.high_z);
    if ((s.low_r < 0) != (s.high_r < 0))
      all.push_back(s.low_z + (s.high_z - s.low_z) * (s.low_r / (s.low_r - s.high_r)));
  }
  std::sort(all.begin(), all.end());
  std::vector<double> heights;
  for (double z : all)
    if (heights.empty() || z - heights.back() > same_height_m)
      heights.push_back(z);
  const auto snapped = [&](double z) {
    const auto above = std::upper_bound(heights.begin(), heights.end(), z);
    return above == heights.begin() ? heights.front() : *std::prev(above);
  };
  for (Segment& s : segments) {
    s.low_z = snapped(s.low_z);
    s.high_z = snapped(s.high_z);
  }
  return heights;
}

/// One pair of sides in one slab.
struct Span {
  const Segment* left = nullptr;
  const Segment* right = nullptr;
  std::size_t material = 0;
};

/// Places where the surfaces of two materials meet. Their border inside the
/// part may have been joined away; it is taken to stand upright there.
class Seams {
public:
  explicit Seams(const std::vector<Segment>& segments) {
    struct End {
      double z, r;
      std::size_t material;
    };
    std::vector<End> ends;
    for (const Segment& s : segments) {
      ends.push_back({s.low_z, s.low_r, s.material});
      ends.push_back({s.high_z, s.high_r, s.material});
    }
    std::sort(ends.begin(), ends.end(), [](const End& a, const End& b) {
      return a.z != b.z ? a.z < b.z : a.r != b.r ? a.r < b.r : a.material < b.material;
    });
    for (std::size_t i = 0; i + 1 < ends.size(); ++i)
      if (ends[i].z == ends[i + 1].z && ends[i + 1].r - ends[i].r < same_height_m &&
          ends[i].material != ends[i + 1].material)
        seams_.push_back({ends[i].z, {ends[i].r, -HUGE_VAL, ends[i].r, HUGE_VAL, 0, false}});
  }

  /// The seam nearest in height whose radius is between the two; null for none.
  [[nodiscard]] const Segment* between(double left_r, double right_r, double z) const {
    const Seam* nearest = nullptr;
    for (const Seam& seam : seams_)
      if (seam.line.low_r > left_r && seam.line.low_r < right_r &&
          (nearest == nullptr || std::abs(seam.z - z) < std::abs(nearest->z - z)))
        nearest = &seam;
    return nearest != nullptr ? &nearest->line : nullptr;
  }

private:
  struct Seam {
    double z;
    Segment line;
  };
  std::vector<Seam> seams_;
};

/// Those that cross a slab, from the axis outward. Where two stand at one
/// radius the one that ends solid comes first, since touching solids are two.
void sort_across(std::vector<const Segment*>& segments, double middle_z) {
  std::sort(segments.begin(), segments.end(), [middle_z](const Segment* a, const Segment* b) {
    const double ra = a->r_at(middle_z);
    const double rb = b->r_at(middle_z);
    if (std::abs(ra - rb) > 1e-10)
      return ra < rb;
    return a->opens != b->opens ? !a->opens : a < b;
  });
}

/// The sides of a slab on this half plane, an even number of them.
struct Sides {
  std::vector<const Segment*> across;
  bool sound = true;
};

/// The plane goes on behind the axis, and what it meets there tells whether the
/// axis itself is inside the part: then it is a side as well. Otherwise one side
/// too many is a hole in the mesh on this half, and the innermost is left out.
Sides sides_of(std::vector<const Segment*> crossing_segments, double middle_z,
               const Segment& axis) {
  sort_across(crossing_segments, middle_z);
  const auto first_before = std::find_if(crossing_segments.begin(), crossing_segments.end(),
                                         [&](const Segment* s) { return s->r_at(middle_z) > 0; });
  const auto behind = static_cast<std::size_t>(first_before - crossing_segments.begin());
  Sides sides{{first_before, crossing_segments.end()}, true};
  if (sides.across.size() % 2 == 1) {
    sides.sound = behind % 2 == 1 && !sides.across.front()->opens;
    if (sides.sound)
      sides.across.insert(sides.across.begin(), &axis);
    else
      sides.across.erase(sides.across.begin());
  }
  return sides;
}

/// Pairs of one material's own sides; false where they do not make closed shells.
bool pair_shells(const Sides& sides, const Segment& axis, std::vector<Span>& spans) {
  bool sound = sides.sound;
  for (std::size_t i = 0; i + 1 < sides.across.size(); i += 2) {
    const Segment* left = sides.across[i];
    const Segment* right = sides.across[i + 1];
    sound = sound && (left == &axis || left->opens) && !right->opens;
    spans.push_back({left, right, right->material});
  }
  return sound;
}

/// Pairs by even and odd alone, whatever the materials.
void pair_even_odd(const Sides& sides, const Segment& axis, double middle_z, const Seams& seams,
                   std::vector<Span>& spans) {
  for (std::size_t i = 0; i + 1 < sides.across.size(); i += 2) {
    const Segment* left = sides.across[i];
    const Segment* right = sides.across[i + 1];
    const Segment* seam =
        left == &axis || left->material == right->material
            ? nullptr
            : seams.between(left->r_at(middle_z), right->r_at(middle_z), middle_z);
    if (seam != nullptr) {
      spans.push_back({left, seam, left->material});
      spans.push_back({seam, right, right->material});
    } else {
      spans.push_back({left, right, right->material});
    }
  }
}

/// Pieces that go on from slab to slab between the same two sides stay one piece.
class PieceRun {
public:
  explicit PieceRun(std::vector<CapPiece>& pieces) : pieces_(pieces) {}

  void slab(const std::vector<Span>& spans, double low, double high) {
    std::vector<Open> next;
    for (const Span& span : spans) {
      double from = low;
      for (const Open& open : open_)
        if (open.span.left == span.left && open.span.right == span.right && open.high == low)
          from = open.low;
      next.push_back({span, from, high});
    }
    for (const Open& open : open_) {
      const bool goes_on = std::any_of(next.begin(), next.end(), [&](const Open& n) {
        return n.span.left == open.span.left && n.span.right == open.span.right &&
               n.low == open.low;
      });
      if (!goes_on)
        close(open);
    }
    open_ = std::move(next);
  }
  void finish() {
    for (const Open& open : open_)
      close(open);
    open_.clear();
  }

private:
  struct Open {
    Span span;
    double low = 0;
    double high = 0;
  };
  void close(const Open& open) {
    CapPiece piece;
    piece.low_m = open.low;
    piece.high_m = open.high;
    // Behind the axis is the other half plane's.
    piece.left_low_m = std::max(open.span.left->r_at(open.low), 0.0);
    piece.left_high_m = std::max(open.span.left->r_at(open.high), 0.0);
    piece.right_low_m = std::max(open.span.right->r_at(open.low), piece.left_low_m);
    piece.right_high_m = std::max(open.span.right->r_at(open.high), piece.left_high_m);
    piece.material = open.span.material;
    if (piece.area_m2() > 0)
      pieces_.push_back(piece);
  }
  std::vector<CapPiece>& pieces_;
  std::vector<Open> open_;
};

/// Fills the slabs. by_material: each material's own loops, else all as one.
bool fill(const std::vector<Segment>& segments, const std::vector<double>& heights,
          std::size_t materials, bool by_material, std::vector<CapPiece>& pieces) {
  const Segment axis{0, -HUGE_VAL, 0, HUGE_VAL, 0, true};
  const Seams seams(by_material || materials < 2 ? std::vector<Segment>() : segments);
  std::vector<const Segment*> waiting;
  for (const Segment& s : segments)
    if (s.high_z > s.low_z)
      waiting.push_back(&s);
  std::sort(waiting.begin(), waiting.end(), [](const Segment* a, const Segment* b) {
    return a->low_z != b->low_z ? a->low_z < b->low_z : a < b;
  });
  std::vector<const Segment*> active;
  std::size_t next = 0;
  double open_height = 0;
  PieceRun run(pieces);
  for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
    const double low = heights[i];
    const double high = heights[i + 1];
    std::erase_if(active, [low](const Segment* s) { return s->high_z <= low; });
    while (next < waiting.size() && waiting[next]->low_z <= low)
      active.push_back(waiting[next++]);
    std::vector<Span> spans;
    bool even = true;
    for (std::size_t m = 0; m < (by_material ? materials : 1); ++m) {
      std::vector<const Segment*> those;
      for (const Segment* s : active)
        if (!by_material || s->material == m)
          those.push_back(s);
      const double middle = 0.5 * (low + high);
      const Sides sides = sides_of(std::move(those), middle, axis);
      if (by_material)
        even = pair_shells(sides, axis, spans) && even;
      else
        pair_even_odd(sides, axis, middle, seams, spans);
      even = even && sides.sound;
    }
    if (!even)
      open_height += high - low;
    run.slab(spans, low, high);
  }
  run.finish();
  return open_height <= crack_m;
}

} // namespace

double CapPiece::area_m2() const {
  return 0.5 * (high_m - low_m) * ((right_low_m - left_low_m) + (right_high_m - left_high_m));
}

double Section::area_m2() const {
  double area = 0;
  for (const CapPiece& piece : pieces)
    area += piece.area_m2();
  return area;
}

double Section::thickness_m(std::size_t material) const {
  double area = 0;
  for (const CapPiece& piece : pieces)
    area += piece.material == material ? piece.area_m2() : 0.0;
  return outline_m[material] > 0 ? 2 * area / outline_m[material] : 0.0;
}

double Section::layer_m(std::size_t material) const {
  double area = 0;
  double height = 0;
  double width = 0;
  for (const CapPiece& piece : pieces) {
    if (piece.material != material)
      continue;
    const double a = piece.area_m2();
    area += a;
    height += a * (piece.high_m - piece.low_m);
    width += a * a / (piece.high_m - piece.low_m);
  }
  return area > 0 ? std::min(height, width) / area : 0.0;
}

Section section_of(const Mesh& mesh, const Pose& pose, const std::optional<Stretch>& stretch,
                   double angle_rad, KeptSide kept) {
  Section section;
  const std::vector<PlaneVertex> seen = seen_by_plane(mesh, pose, stretch, angle_rad, kept);
  std::vector<Segment> segments = cut_triangles(mesh, seen, section);
  const std::vector<double> heights = slab_heights(segments);
  const std::size_t materials = section.materials.size();
  if (materials > 1) {
    // Shells that are closed each by itself keep their own materials exactly.
    if (fill(segments, heights, materials, true, section.pieces))
      return section;
    section.pieces.clear();
  }
  section.closed = fill(segments, heights, materials, false, section.pieces);
  return section;
}

} // namespace lugline
