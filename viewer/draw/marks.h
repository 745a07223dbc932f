// What is drawn about the parts rather than of them, as ribbons and patches:
// ghosts' edges, key outlines, the fall line, the turn arc; and where their
// words belong.
//
// Free functions on a frame; no OpenGL. Metres in the place's frame.
#pragma once

#include "viewer/draw/frame.h"
#include "viewer/draw/ribbon_pass.h"

#include <vector>

namespace lugline {

struct Marks {
  std::vector<Ribbon> ribbons;
  std::vector<Patch> patches;
};

/// Creases and outlines of the ghosts, in thin broken ink, and of what is seen through, in
/// thinner unbroken ink.
void add_ghosts(const Frame& frame, Marks& marks);
/// Creases and outlines of what is in hand, dashed, to be drawn where others stand before it.
void add_hidden(const Frame& frame, Marks& marks);
/// The lit outline of each key's box on its part.
void add_keys(const Frame& frame, Marks& marks);
void add_fall(const Frame& frame, Marks& marks);
void add_turn(const Frame& frame, Marks& marks);

/// An anchor with the point that it stands for.
struct PlacedAnchor {
  ScreenAnchor anchor;
  glm::dvec3 point_m{0};
  double nearer_m = 0;   ///< how far before the point counts as before it
  bool cut_away = false; ///< its part has nothing there
};

/// In the picture's order: keys, up arrow, labels, fall, turn. Whether each is
/// visible is for the GPU to say.
std::vector<PlacedAnchor> place_anchors(const Frame& frame);

} // namespace lugline
