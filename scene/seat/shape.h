// A solid made ready for the drop, and bodies: solids where they stand.
//
// Lengths are metres, angles radians, as in scene/part/solid.h. A Shape owns
// its rings and never changes; a Body points to one that must outlive it.
#pragma once

#include "scene/part/solid.h"

#include <string>
#include <vector>

namespace lugline {

/// A Solid with what the drop asks of it again and again.
class Shape {
public:
  Shape() = default;
  /// The solid as given, the right way up in its frame.
  explicit Shape(Solid solid);

  [[nodiscard]] const std::vector<SectorRing>& rings() const { return solid_.rings; }
  [[nodiscard]] const Solid& solid() const { return solid_; }
  /// How many equal turns carry the ring onto itself: 42 for 42 equal teeth,
  /// 1 for one lug, 0 for a full circle.
  [[nodiscard]] int symmetry(std::size_t ring) const { return symmetry_[ring]; }
  [[nodiscard]] double low_m() const { return low_m_; }
  [[nodiscard]] double high_m() const { return high_m_; }

private:
  Solid solid_;
  std::vector<int> symmetry_;
  double low_m_ = 0;
  double high_m_ = 0;
};

/// What turns with what. Bodies of one spin turn as one.
using Spin = int;
inline constexpr Spin spin_fixed = 0; ///< turns with the place: does not turn
inline constexpr Spin spin_hand = 1;  ///< turns with the part in hand
// 2 and up: each is free to turn on its own.

struct Body {
  std::string id;
  const Shape* shape = nullptr;
  double height_m = 0; ///< of the shape's z = 0
  double turn_rad = 0;
  Spin spin = spin_fixed;
};

/// How two bodies stand to each other along the axis, where their radii and
/// angles overlap at all.
enum class Fit { clear, touching, inside };
struct FitReport {
  Fit fit = Fit::clear;
  double by_m = 0; ///< clear: the least gap (infinite where nothing overlaps); inside: the depth
  std::size_t ring_a = 0;
  std::size_t ring_b = 0;
};

/// Touching is within tolerance_m either way; exact face contact is touching.
FitReport fit_between(const Body& a, const Body& b, double tolerance_m);

} // namespace lugline
