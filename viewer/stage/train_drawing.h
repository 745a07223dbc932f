// The gear train as levers: each planetary set a bar whose ends and pivot are its sun, its carrier
// and its ring, as far apart as their tooth counts say. A member's speed is how far its end stands
// to the right of the line of standing still, so that one straight line shows the speeds of a whole
// set; its torque is the force on that end. Clutches to the input stand at the right, what holds
// to the case at the left.
//
// Speeds are of the input's: 1 turns with it, 0 stands still. Torques N m, positive the way that
// the input turns. Ids as in the unit; "case" is the case. Nothing here is computed but where
// things stand on the page; nothing fails. Lengths are pixels at scale 1.
#pragma once

#include "scene/load/drive.h"
#include "scene/quantity/quantity.h"
#include "viewer/stage/flat.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

enum class ElementLook { off, on, holds, overruns, slips };
/// "off", "on", "holds", "overruns", "slips".
std::string word_for(ElementLook look);

struct TrainMember {
  std::string id;
  std::string name;
  std::optional<double> speed; ///< none: nothing settles it
  bool path = false;           ///< power flows through it
};

struct TrainSet {
  std::string name;
  std::string sun; ///< member ids; sun or ring may be empty
  std::string carrier;
  std::string ring;
  /// What the sun turns for one turn of the ring while the carrier stands: -ring/sun teeth where
  /// there is one row of pinions.
  double sun_over_ring = -1;
  bool torques_known = false;
  double sun_Nm = 0; ///< that its gears put on its members; they sum to nothing
  double carrier_Nm = 0;
  double ring_Nm = 0;
};

struct TrainElement {
  std::string id;
  std::string name;
  ElementKind kind = ElementKind::clutch;
  std::string of;
  std::string to; ///< a member, or "case"
  ElementLook look = ElementLook::off;
  std::optional<double> torque_Nm; ///< that it carries
  bool path = false;
};

struct TrainPicture {
  std::vector<TrainMember> members;
  std::vector<TrainSet> sets;
  std::vector<TrainElement> elements;
  std::string input;
  std::string output;
  std::optional<double> input_Nm;
  std::optional<double> output_Nm;
  double slowest = 0; ///< of all ranges, so that the picture does not change its scale with them
  double fastest = 1;
  LengthUnit unit = LengthUnit::millimetre;

  [[nodiscard]] const TrainMember* member(const std::string& id) const;
};

/// Where a member stands on a lever that may be of several sets: two sets that share two members
/// turn as one lever. From 0 to 1 along it.
struct LeverNode {
  std::string member;
  double along = 0;
};
struct Lever {
  std::vector<LeverNode> nodes;  ///< in their order along it
  std::vector<std::size_t> sets; ///< that it is made of
};
/// What the rest of the train puts on a member of that lever; nothing where it is not known.
double lever_torque_Nm(const std::vector<TrainSet>& sets, const Lever& lever,
                       const std::string& member);
std::vector<Lever> levers_of(const std::vector<TrainSet>& sets);

/// As large as the box lets it be. An element's place answers the mouse.
struct DrawnTrain {
  Drawing2d drawing;
  double type = 1; ///< of the usual sizes
  bool fits = true;
  struct Place {
    std::string element;
    Box box;
  };
  std::vector<Place> places;
};
DrawnTrain draw_train(const TrainPicture& train, const Box& box, const TextRuler& ruler);

} // namespace lugline
