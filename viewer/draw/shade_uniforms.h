// What parts and cut faces tell their shaders alike: light, keys, steps.
//
// Free functions that set uniforms of a program in use. Metres, place frame.
#pragma once

#include "viewer/draw/frame.h"
#include "viewer/draw/look.h"

namespace lugline {

/// What the item itself is made of; never own.
Look own_look(const PictureItem& item);

/// Whether any key light stands on it.
bool has_keys(const Frame& frame, const PictureItem& item);

void set_light(Program& program, const Frame& frame);

/// Colour and gloss of every look in a role.
void set_tones(Program& program, Role role, bool print_look);

/// Key lights that stand on an item; the program is one with KEYED.
void set_keys(Program& program, const Frame& frame, const PictureItem& item);

/// A length from a ladder of doubles that spans at most target_m; in fade how
/// far it has to go to the next, 0 to 1.
double ladder_step(double target_m, double& fade);

/// Pixels that a metre spans where the camera looks.
double px_per_m_at_look(const Frame& frame);

} // namespace lugline
