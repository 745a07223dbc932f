#include "viewer/stage/train_plan.h"

#include <algorithm>
#include <set>

namespace lugline {

namespace {

class Planner {
public:
  explicit Planner(const TrainPicture& train) : train_(train) {}

  TrainPlan plan() {
    lay_levers();
    lay_loose();
    for (const TrainElement& element : train_.elements) {
      if (!used_.contains(&element) && (has_row(element.of) || has_row(element.to))) {
        follow(element);
      }
    }
    for (auto* lanes : {&plan_.to_case, &plan_.to_input}) {
      std::ranges::stable_sort(*lanes, {}, &TrainLane::row);
    }
    return std::move(plan_);
  }

private:
  [[nodiscard]] std::optional<std::size_t> row_of(const std::string& member) const {
    const auto found = std::ranges::find(plan_.rows, member, &TrainRow::member);
    return found == plan_.rows.end()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(found - plan_.rows.begin()));
  }
  [[nodiscard]] bool has_row(const std::string& member) const { return row_of(member).has_value(); }
  [[nodiscard]] std::size_t elements_at(const std::string& member) const {
    return static_cast<std::size_t>(
        std::ranges::count_if(train_.elements, [&](const TrainElement& element) {
          return element.of == member || element.to == member;
        }));
  }

  void lay_levers() {
    const std::vector<Lever> levers = levers_of(train_.sets);
    for (const Lever& lever : levers) {
      for (const LeverNode& node : lever.nodes) {
        plan_.rows.push_back({node.member, plan_.levers, node.along,
                              lever_torque_Nm(train_.sets, lever, node.member)});
      }
      ++plan_.levers;
    }
    plan_.input_has_row = has_row(train_.input);
  }

  /// Members on no lever: between two elements they stand in a lane, else they have a row.
  void lay_loose() {
    for (const TrainMember& member : train_.members) {
      const bool lane = elements_at(member.id) == 2 && member.id != train_.output;
      const bool bar = member.id == train_.input;
      if (!lane && !bar && !has_row(member.id) && member.id != case_member) {
        plan_.rows.push_back({member.id, plan_.levers, 0.5, 0});
        ++plan_.levers;
      }
    }
  }

  /// From a row through loose members until something is reached.
  void follow(const TrainElement& first) {
    TrainLane lane;
    const std::string& from = has_row(first.of) ? first.of : first.to;
    lane.row = row_of(from).value_or(0);
    std::string at = first.of == from ? first.to : first.of;
    lane.elements.push_back(&first);
    used_.insert(&first);
    while (at != case_member && at != train_.input && !has_row(at)) {
      const auto next = std::ranges::find_if(train_.elements, [&](const TrainElement& element) {
        return !used_.contains(&element) && (element.of == at || element.to == at);
      });
      if (next == train_.elements.end()) {
        break;
      }
      lane.between.push_back(at);
      lane.elements.push_back(&*next);
      used_.insert(&*next);
      at = next->of == at ? next->to : next->of;
    }
    if (has_row(at)) {
      lane.other_row = row_of(at).value_or(0);
      plan_.across.push_back(std::move(lane));
    } else if (at == train_.input) {
      plan_.to_input.push_back(std::move(lane));
    } else {
      plan_.to_case.push_back(std::move(lane));
    }
  }

  const TrainPicture& train_;
  TrainPlan plan_;
  std::set<const TrainElement*> used_;
};

} // namespace

TrainPlan plan_of(const TrainPicture& train) {
  return Planner(train).plan();
}

} // namespace lugline
