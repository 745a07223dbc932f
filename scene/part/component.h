// Components and their features: what a part is, apart from its triangles.
//
// Lengths are metres, angles radians, forces newtons, masses kilograms, in the
// part's own frame: z up along the axis with the part the right way up, z = 0
// at its datum face, 12 o'clock along +y (solid.h). Plain values; a Component
// never changes once its unit is loaded.
#pragma once

#include "scene/part/solid.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

enum class ComponentKind {
  case_,
  support,
  shaft,
  drum,
  hub,
  carrier,
  ring_gear,
  piston,
  springs,
  retainer,
  steel,
  friction,
  wave_plate,
  apply_plate,
  backing_plate,
  snap_ring,
  thrust_washer,
  one_way_inner,
  one_way_element,
  one_way_outer,
  band,
  bushing,
  thrust_bearing,
  check_ball,
  seal,
  gasket,
  bolt,
  pin,
  servo,
  pump,
  tool,
  other
};

/// The word used in files: "case", "wave plate", "one-way outer race", …
std::string word_for(ComponentKind kind);
/// Empty where the word is not known.
std::optional<ComponentKind> kind_from(const std::string& word);
/// Every word that kind_from understands, for hints.
std::vector<std::string> kind_words();

/// A dimension that a person can measure, and what it moves: raising it by d
/// raises everything above zone_high_m by d and stretches what lies between.
struct Figure {
  std::string name; ///< "thickness"
  double value_m = 0;
  double zone_low_m = 0;
  double zone_high_m = 0;
};

/// A wave or dished plate: its solid is its free height; flat it is less.
struct WaveFigures {
  double free_m = 0;
  double flat_m = 0;
  int waves = 0; ///< 0: dished
};

/// A coil, or a set of coils, between two faces.
struct SpringFigures {
  double free_m = 0;
  double solid_m = 0;
  double rate_N_per_m = 0; ///< of the whole set
};

/// Radii and heights of a snap ring. It springs outward into a bore's groove,
/// or inward into a shaft's.
struct RingFigures {
  bool in_bore = true;
  double free_m = 0; ///< working radius left alone: outer for a bore ring, inner for a shaft ring
  double squeezed_m = 0; ///< working radius as far as it can be squeezed (bore) or spread (shaft)
  double thickness_m = 0;
  double width_m = 0; ///< radial
  double gap_rad = 0; ///< open ends, as seated
  bool bevelled = false;
  double reversed_play_m = 0; ///< play that a bevelled ring leaves the wrong way up
  double free_height_m = 0;   ///< over the waves of a waved ring, as its solid is; 0: a flat ring

  /// Whether it is a spring along the axis too, and takes up its groove's play.
  [[nodiscard]] bool waved() const { return free_height_m > 0; }
};

/// A groove that a snap ring sits in.
struct Groove {
  std::string id; ///< unique in its component
  bool in_bore = true;
  double low_m = 0;
  double high_m = 0;
  double bottom_m = 0; ///< radius at its bottom
  double land_m = 0;   ///< radius of the bore or shaft beside it
  /// True where the ring is pushed against the upper face in use.
  bool loads_up = true;
};

/// Something by which a part is keyed, for the eye: lit in pairs.
struct Key {
  std::string id;   ///< unique in its component: "wide lug", "double slot"
  std::string fits; ///< the id of what it enters on its mate, "COMPONENT/KEY"; may be empty
  double angle_rad = 0;
  double inner_m = 0;
  double outer_m = 0;
  double low_m = 0;
  double high_m = 0;
  double width_m = 0; ///< across the flanks
};

/// What tells which face goes up: the lit feature, and its words.
struct Mark {
  std::string words; ///< "the step faces up"
  double radius_m = 0;
  double angle_rad = 0;
  double height_m = 0; ///< where on the part it is
};

/// A band's stated states: each has its own solid.
struct BandState {
  std::string id; ///< "spread", "relaxed", "leaning"
  Solid solid;
};

struct Component {
  std::string id;
  std::string name;
  ComponentKind kind = ComponentKind::other;
  std::string material; ///< "steel", "aluminium", "iron", "bronze", "friction lining", "rubber"
  double mass_kg = 0;   ///< 0: not known
  Solid solid;          ///< as it lies: free, and for a snap ring as seated
  std::vector<Figure> figures;
  std::optional<WaveFigures> wave;
  std::optional<SpringFigures> springs;
  std::optional<RingFigures> ring;
  std::vector<Groove> grooves;
  std::vector<Key> keys;
  std::vector<Mark> marks;
  std::vector<BandState> band_states;

  [[nodiscard]] const Figure* figure(const std::string& name) const;
  [[nodiscard]] const Groove* groove(const std::string& id) const;
};

} // namespace lugline
