// The gear train's view: what is applied, what turns, what it carries.
#include "viewer/stage/figures_parts.h"

#include "scene/drive/train.h"

#include <algorithm>
#include <cmath>

namespace lugline::figures {

namespace {

constexpr double still = 1e-9;

ElementLook look_of(ElementDoing doing) {
  switch (doing) {
  case ElementDoing::on:
    return ElementLook::on;
  case ElementDoing::holds:
    return ElementLook::holds;
  case ElementDoing::overruns:
    return ElementLook::overruns;
  case ElementDoing::off:
  case ElementDoing::stands:
  case ElementDoing::free:
    break;
  }
  return ElementLook::off;
}

/// What the sun turns for one turn of the ring while the carrier stands.
double sun_over_ring(const PlanetarySet& set) {
  const double sun = set.sun_teeth;
  const double ring = set.ring_teeth;
  switch (set.kind) {
  case PlanetaryKind::single_pinion:
    return sun > 0 ? -ring / sun : -1;
  case PlanetaryKind::double_pinion:
    return sun > 0 ? ring / sun : 1;
  case PlanetaryKind::stepped_pinion:
    break;
  }
  const double outer = set.outer_pinion_teeth;
  return sun * outer > 0 ? -ring * set.pinion_teeth / (sun * outer) : -1;
}

class TrainFiller {
public:
  TrainFiller(const Drive& drive, const ViewState& view) : drive_(drive), view_(view) {}

  void fill(FiguresPage& page) {
    const FiguresChoice& choice = view_.figures;
    std::vector<std::string> ids;
    for (const DriveRange& range : drive_.ranges) {
      ids.push_back(range.id);
    }
    const std::string chosen = one_of(ids, choice.range);
    range_ = drive_.range(chosen);
    if (range_ != nullptr) {
      applied_ = applied_in(*range_);
    }
    if (choice.on) {
      applied_ = {*choice.on, {}, {}};
    }
    duty_ = choice.coasting ? TrainDuty::coast : TrainDuty::pull;
    input_torque_ = choice.input_Nm.si ? choice.input_Nm.si : stated_torque();
    answer_ = settle_train(drive_, applied_, duty_);
    choices(page, chosen);
    asked(page);
    report(page);
    page.train = picture();
  }

private:
  /// Of the range's duty that pulls, or coasts; else of any.
  [[nodiscard]] std::optional<double> stated_torque() const {
    const auto of = [this](const DriveRange& range) -> std::optional<double> {
      for (const RangeDuty& duty : range.duties) {
        if ((duty.input_Nm < 0) == (duty_ == TrainDuty::coast)) {
          return std::abs(duty.input_Nm);
        }
      }
      return std::nullopt;
    };
    if (range_ != nullptr) {
      if (const auto own = of(*range_)) {
        return own;
      }
    }
    for (const DriveRange& range : drive_.ranges) {
      if (const auto any = of(range)) {
        return any;
      }
    }
    return std::nullopt;
  }

  void choices(FiguresPage& page, const std::string& chosen) const {
    page.choose = "range";
    for (const DriveRange& range : drive_.ranges) {
      page.options.push_back({range.id, range.name, range.id == chosen});
    }
    for (const DriveElement& element : drive_.elements) {
      if (element.kind != ElementKind::one_way_clutch) {
        const bool on = std::ranges::find(applied_.on, element.id) != applied_.on.end();
        page.switches.push_back({element.id, element.name, on});
      }
    }
    page.by_hand = view_.figures.on.has_value();
    page.about = page.by_hand || range_ == nullptr ? "elements put on by hand" : range_->name;
    page.about += duty_ == TrainDuty::coast ? ", coasting" : "";
  }

  void asked(FiguresPage& page) const {
    const LengthUnit unit = view_.settings.unit;
    const LengthUnit other = unit == LengthUnit::inch ? LengthUnit::millimetre : LengthUnit::inch;
    page.asked = "torque at the input";
    page.asked_figure = input_torque_ ? print_torque(*input_torque_, unit) + " (" +
                                            print_torque(*input_torque_, other) + ")"
                                      : "none is stated";
    page.typed = view_.figures.input_Nm;
  }

  void report(FiguresPage& page) const {
    page.report = page.by_hand || range_ == nullptr
                      ? report_train(drive_, applied_, "Elements put on by hand", input_torque_)
                      : report_range(drive_, *range_, input_torque_);
    if (!answer_.words.empty()) {
      page.report.verdict_words = answer_.words;
    }
  }

  [[nodiscard]] std::optional<double> in_Nm(const std::optional<ExactFigure>& share) const {
    return share && input_torque_ ? std::optional(share->value * *input_torque_) : std::nullopt;
  }

  TrainPicture picture() {
    TrainPicture train;
    train.unit = view_.settings.unit;
    train.input = drive_.input;
    train.output = drive_.output;
    for (const MemberTurn& turn : answer_.members) {
      TrainMember member;
      member.id = turn.id;
      // "Output shaft with the output carrier" is the output shaft where there is little room.
      member.name = turn.name.substr(0, turn.name.find(" with "));
      member.speed = turn.speed ? std::optional(turn.speed->value) : std::nullopt;
      train.members.push_back(member);
    }
    sets(train);
    elements(train);
    // Where nothing drives no torque is passed on.
    if (answer_.state == TrainState::drives) {
      train.input_Nm = input_torque_;
      train.output_Nm = in_Nm(answer_.output_torque);
      mark_path(train);
    }
    span_of_speeds(train);
    return train;
  }

  void sets(TrainPicture& train) const {
    for (const PlanetarySet& set : drive_.sets) {
      TrainSet shown;
      shown.name = set.name;
      shown.sun = set.sun;
      shown.carrier = set.carrier;
      shown.ring = set.ring;
      shown.sun_over_ring = sun_over_ring(set);
      const auto torques = std::ranges::find(answer_.sets, set.id, &SetTorques::set);
      if (answer_.state == TrainState::drives && torques != answer_.sets.end() && torques->known &&
          input_torque_) {
        shown.torques_known = true;
        shown.sun_Nm = torques->sun.value * *input_torque_;
        shown.carrier_Nm = torques->carrier.value * *input_torque_;
        shown.ring_Nm = torques->ring.value * *input_torque_;
      }
      train.sets.push_back(shown);
    }
  }

  void elements(TrainPicture& train) const {
    for (const DriveElement& element : drive_.elements) {
      TrainElement shown;
      shown.id = element.id;
      shown.name = element.name;
      shown.kind = element.kind;
      shown.of = element.of;
      shown.to = element.to;
      if (const ElementWork* work = answer_.element(element.id)) {
        shown.look = look_of(work->doing);
        shown.torque_Nm = in_Nm(work->torque);
      }
      train.elements.push_back(shown);
    }
  }

  /// Power is torque times speed: it flows where neither is nothing.
  static void mark_path(TrainPicture& train) {
    const auto turns = [&](const std::string& id) {
      const TrainMember* member = train.member(id);
      return member != nullptr && member->speed && std::abs(*member->speed) > still;
    };
    for (TrainElement& element : train.elements) {
      element.path = element.torque_Nm && std::abs(*element.torque_Nm) > still &&
                     turns(element.of) && turns(element.to);
    }
    const std::vector<Lever> levers = levers_of(train.sets);
    for (TrainMember& member : train.members) {
      const bool end = member.id == train.input || member.id == train.output;
      const bool carries = std::ranges::any_of(levers, [&](const Lever& lever) {
        return std::ranges::any_of(lever.nodes, [&](const LeverNode& node) {
          return node.member == member.id &&
                 std::abs(lever_torque_Nm(train.sets, lever, member.id)) > 1e-6;
        });
      });
      const bool between = std::ranges::any_of(train.elements, [&](const TrainElement& element) {
        return element.path && (element.of == member.id || element.to == member.id);
      });
      member.path = turns(member.id) && (end || carries || between);
    }
  }

  void span_of_speeds(TrainPicture& train) const {
    const auto take = [&](const TrainAnswer& answer) {
      for (const MemberTurn& turn : answer.members) {
        if (turn.speed) {
          train.slowest = std::min(train.slowest, turn.speed->value);
          train.fastest = std::max(train.fastest, turn.speed->value);
        }
      }
    };
    for (const DriveRange& range : drive_.ranges) {
      take(settle_train(drive_, applied_in(range), TrainDuty::pull));
    }
    take(answer_);
  }

  const Drive& drive_;
  const ViewState& view_;
  const DriveRange* range_ = nullptr;
  AppliedElements applied_;
  TrainDuty duty_ = TrainDuty::pull;
  std::optional<double> input_torque_;
  TrainAnswer answer_;
};

} // namespace

void fill_train(FiguresPage& page, const Stage& stage, const ViewState& view) {
  page.view = "The gear train";
  page.working = view.figures.working;
  const std::optional<Drive>& drive = stage.unit().drive;
  if (!drive || drive->sets.empty()) {
    page.report = refused_report("The gear train", "This unit states no gear train. It is written "
                                                   "in unit.toml under [train], [[member]], "
                                                   "[[planetary]], [[element]] and [[range]].");
    return;
  }
  TrainFiller(*drive, view).fill(page);
}

} // namespace lugline::figures
