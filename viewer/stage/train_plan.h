// Which row of the picture each member has, and which elements stand in which lane beside the
// rows. Inside viewer/stage only; no lengths, only order.
#pragma once

#include "viewer/stage/train_drawing.h"

namespace lugline {

struct TrainRow {
  std::string member;
  std::size_t lever = 0;
  double along = 0;     ///< its lever, 0 to 1
  double torque_Nm = 0; ///< on it from outside its lever
};

/// Elements one behind the other, through members that stand on no lever.
struct TrainLane {
  std::vector<const TrainElement*> elements; ///< from the row outward
  std::vector<std::string> between;          ///< members between them
  std::size_t row = 0;
  std::size_t other_row = 0; ///< where it joins two rows
};

struct TrainPlan {
  std::vector<TrainRow> rows; ///< from the top
  std::size_t levers = 0;
  std::vector<TrainLane> to_case;
  std::vector<TrainLane> to_input;
  std::vector<TrainLane> across; ///< between two rows
  bool input_has_row = false;
};

TrainPlan plan_of(const TrainPicture& train);

} // namespace lugline
