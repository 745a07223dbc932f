// The picture as a plain list: what to draw and what to say, before any GPU.
//
// stage makes it from the state and its answers; draw carries it to OpenGL;
// panels show its words. Comparable as text (text_of). No OpenGL, no Dear ImGui.
// Lengths are metres in the frame of the place that is shown: z up along the
// axis, 12 o'clock along +y. Angles are radians, counter-clockwise from the +z end.
#pragma once

#include "scene/mesh/mesh.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// How much of the eye's attention a part gets.
enum class Role {
  in_hand, ///< full colour; the only one
  shown,   ///< in its own materials, where a picture is of the whole and nothing is in hand
  placed,  ///< quiet
  mate,    ///< placed, and holds the key or the seat: a little stronger
  tool,
  ghost ///< thin ink only: the wrong way, or what was there
};

/// Where a part is: turned about the axis, perhaps turned over, then raised.
struct Pose {
  double height_m = 0; ///< of the part's origin (its datum face)
  double turn_rad = 0;
  double over_rad = 0;     ///< turned over about the 12 o'clock axis: pi is upside down; in between
                           ///< while it is being turned
  double over_about_m = 0; ///< height in the part's own frame of the axis it is turned over about
  double aside_m =
      0; ///< moved off the axis, along +x (to the right seen from 12 o'clock … the +z end up)
};

struct Stretch {
  double zone_low_m = 0;
  double zone_high_m = 0;
  double delta_m = 0;
};

struct PictureItem {
  std::string id; ///< component id
  std::shared_ptr<const Mesh> mesh;
  Pose pose;
  Role role = Role::placed;
  std::string material;
  bool cut = true;      ///< false: stays whole in the cut
  bool outline = false; ///< seen through: thin ink only, and never picked
  std::optional<Stretch> stretch;
  std::uint32_t pick = 0; ///< 1 up; 0 cannot be picked
};

/// One of a pair: a lug and its slot share number, colour and pattern.
struct KeyLight {
  int pair = 1;
  std::string item;     ///< PictureItem::id it belongs to
  double angle_rad = 0; ///< in the part's own frame, as are the lengths
  double inner_m = 0;
  double outer_m = 0;
  double low_m = 0;
  double high_m = 0;
  double width_m = 0;
};

/// The arrow off the face that goes up, and the lit feature with its words.
/// It points up in the part's own frame, and turns over with the part.
struct UpArrow {
  std::string item;
  double radius_m = 0;
  double angle_rad = 0; ///< part frame
  double height_m = 0;  ///< part frame
  std::string words;
};

/// A quarter (or any wedge) taken out about the axis, from one angle
/// counter-clockwise to the other.
struct Cut {
  bool on = false;
  double from_rad = 0;
  double to_rad = 0;
};

struct Camera {
  double turn_rad = 0;   ///< the eye's angle about the axis, 0 above 12 o'clock
  double rise_rad = 0.6; ///< above the horizon
  double distance_m = 1;
  double look_at_m = 0; ///< height on the axis that it looks at
  double pan_x_m = 0;
  double pan_y_m = 0;
  double fov_rad = 0.45;   ///< vertical
  bool axis_level = false; ///< rolled: the axis lies across the picture, its upper end to the right
};

/// A dimension line or a leader with words, anchored in the scene.
struct SceneLabel {
  std::string words;
  std::string item;
  double radius_m = 0;
  double angle_rad = 0;
  double height_m = 0; ///< place frame
};

/// The way a part will go: a dashed line down from it to its seat.
struct FallLine {
  double radius_m = 0;
  double angle_rad = 0;
  double from_m = 0;
  double to_m = 0;
};

/// A turn to the key: an arc with its angle and the end that it is seen from.
struct TurnArc {
  double radius_m = 0;
  double height_m = 0;
  double from_rad = 0;
  double to_rad = 0;
  std::string words;
};

struct Picture {
  std::vector<PictureItem> items;
  std::vector<KeyLight> keys;
  std::optional<UpArrow> up;
  std::optional<FallLine> fall;
  std::optional<TurnArc> turn;
  std::vector<SceneLabel> labels;
  Cut cut;
  Camera camera;
  bool print_look = false;   ///< plain lines on white
  bool hidden_edges = false; ///< of what is in hand, dashed where others stand before it
};

/// Every field that draws, a line each, figures in mm and degrees to fixed
/// places: two pictures with the same text look the same.
std::string text_of(const Picture& picture);

} // namespace lugline
