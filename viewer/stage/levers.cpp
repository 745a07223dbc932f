// Planetary sets as levers, and those that share two members as one.
#include "viewer/stage/train_drawing.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

/// Along a set's own lever: the carrier at 0, the ring at 1, the sun where the tooth counts say.
std::vector<LeverNode> nodes_of(const TrainSet& set) {
  std::vector<LeverNode> nodes;
  if (!set.sun.empty()) {
    nodes.push_back({set.sun, set.ring.empty() ? -1.0 : set.sun_over_ring});
  }
  nodes.push_back({set.carrier, 0});
  if (!set.ring.empty()) {
    nodes.push_back({set.ring, 1});
  }
  return nodes;
}

const LeverNode* find(const Lever& lever, const std::string& member) {
  const auto found = std::ranges::find(lever.nodes, member, &LeverNode::member);
  return found == lever.nodes.end() ? nullptr : &*found;
}

/// Joins a set's nodes to a lever that has two of its members; whether it has.
bool join(Lever& lever, const std::vector<LeverNode>& nodes) {
  std::vector<std::pair<double, double>> shared; // along the set, along the lever
  for (const LeverNode& node : nodes) {
    if (const LeverNode* there = find(lever, node.member)) {
      shared.emplace_back(node.along, there->along);
    }
  }
  if (shared.size() < 2 || shared[0].first == shared[1].first) {
    return false;
  }
  const double by = (shared[1].second - shared[0].second) / (shared[1].first - shared[0].first);
  for (const LeverNode& node : nodes) {
    if (find(lever, node.member) == nullptr) {
      lever.nodes.push_back({node.member, shared[0].second + by * (node.along - shared[0].first)});
    }
  }
  return true;
}

/// From 0 to 1, beginning with the end that the first node is nearer to.
void set_straight(Lever& lever) {
  const std::string first = lever.nodes.front().member;
  const auto [least, most] = std::ranges::minmax_element(lever.nodes, {}, &LeverNode::along);
  const double low = least->along;
  const double length = std::max(most->along - low, 1e-12);
  for (LeverNode& node : lever.nodes) {
    node.along = (node.along - low) / length;
  }
  if (find(lever, first)->along > 0.5) {
    for (LeverNode& node : lever.nodes) {
      node.along = 1 - node.along;
    }
  }
  std::ranges::stable_sort(lever.nodes, {}, &LeverNode::along);
}

} // namespace

std::vector<Lever> levers_of(const std::vector<TrainSet>& sets) {
  std::vector<Lever> levers;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    const std::vector<LeverNode> nodes = nodes_of(sets[i]);
    const auto found =
        std::ranges::find_if(levers, [&](Lever& lever) { return join(lever, nodes); });
    if (found == levers.end()) {
      levers.push_back({nodes, {i}});
    } else {
      found->sets.push_back(i);
    }
  }
  std::ranges::for_each(levers, set_straight);
  return levers;
}

double lever_torque_Nm(const std::vector<TrainSet>& sets, const Lever& lever,
                       const std::string& member) {
  double by_gears_Nm = 0;
  for (const std::size_t i : lever.sets) {
    const TrainSet& set = sets[i];
    if (!set.torques_known) {
      return 0;
    }
    by_gears_Nm += (set.sun == member ? set.sun_Nm : 0) +
                   (set.carrier == member ? set.carrier_Nm : 0) +
                   (set.ring == member ? set.ring_Nm : 0);
  }
  return -by_gears_Nm;
}

const TrainMember* TrainPicture::member(const std::string& id) const {
  const auto found = std::ranges::find(members, id, &TrainMember::id);
  return found == members.end() ? nullptr : &*found;
}

std::string word_for(ElementLook state) {
  switch (state) {
  case ElementLook::off:
    return "off";
  case ElementLook::on:
    return "on";
  case ElementLook::holds:
    return "holds";
  case ElementLook::overruns:
    return "overruns";
  case ElementLook::slips:
    return "slips";
  }
  return {};
}

} // namespace lugline
