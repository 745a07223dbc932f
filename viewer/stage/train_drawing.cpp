#include "viewer/stage/train_drawing.h"

#include "viewer/stage/figure_setting.h"
#include "viewer/stage/page_parts.h"
#include "viewer/stage/train_plan.h"
#include "viewer/stage/train_symbols.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace lugline {

namespace {

constexpr double cell_px = 126;  ///< of one element in a lane
constexpr double lane_px = 66;   ///< least from lane to lane
constexpr double names_px = 118; ///< of the members
constexpr double wall_px = 14;
constexpr double least_speeds_px = 230;
constexpr double arrow_px = 78; ///< of the largest torque

std::string speed_words(double speed) {
  std::array<char, 32> buffer{};
  const double shown = std::abs(speed) < 5e-4 ? 0 : speed;
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), shown,
                                 std::chars_format::fixed, 3)
                       .ptr;
  return well_set(std::string(buffer.data(), end));
}

class TrainDrawer {
public:
  TrainDrawer(const TrainPicture& train, const TrainPlan& plan, const Box& box, double type,
              const TextRuler& ruler)
      : train_(train), plan_(plan), box_(box), type_(type), ruler_(ruler) {}

  DrawnTrain draw() {
    lay_out();
    speeds();
    rows();
    levers();
    lanes_to_case();
    lanes_to_input();
    lanes_across();
    ways_in_and_out();
    for (std::size_t i = 0; i < plan_.rows.size(); ++i) {
      node(i);
    }
    drawn_.type = type_;
    return std::move(drawn_);
  }

private:
  [[nodiscard]] double size(double px) const { return px * type_; }
  [[nodiscard]] Lettering lettering(double px, FontWeight weight, Colour colour) const {
    return {size(px), weight, colour, 1.18, true};
  }
  Drawing2d& drawing() { return drawn_.drawing; }
  void demand(bool fits) { drawn_.fits = drawn_.fits && fits; }

  static std::size_t longest(const std::vector<TrainLane>& lanes) {
    std::size_t most = 0;
    for (const TrainLane& lane : lanes) {
      most = std::max(most, lane.elements.size());
    }
    return most;
  }

  // ------------------------------------------------ where things stand

  void lay_out() {
    const auto left = static_cast<double>(longest(plan_.to_case));
    const auto right = static_cast<double>(longest(plan_.to_input));
    join_px_ = box_.x_px + size(wall_px + left * cell_px + 10);
    left_px_ = join_px_ + size(names_px);
    const double across = plan_.across.empty() ? 0 : size(cell_px);
    const double bar = plan_.input_has_row ? size(96) : size(34);
    bar_px_ = box_.right_px() - size(12);
    across_px_ = box_.right_px() - bar - size(std::max(right * cell_px, 96.0)) - across;
    out_px_ = across_px_ + across;
    right_px_ = across_px_ - size(28);
    demand(right_px_ - left_px_ >= size(least_speeds_px));
    right_px_ = std::max(right_px_, left_px_ + 1);
    const double axis = size(38);
    lay_rows(box_.y_px + size(46), box_.bottom_px() - axis - size(44));
    axis_px_ = box_.bottom_px() - axis;
    lay_lanes(plan_.to_case, case_y_);
    lay_lanes(plan_.to_input, input_y_);
    const double span = std::max(train_.fastest - train_.slowest, 0.1);
    // Room for the figures beside the outermost ends.
    const double inset = size(66);
    px_per_speed_ = (right_px_ - left_px_ - 2 * inset) / span;
    demand(px_per_speed_ >= size(62));
    nought_px_ = left_px_ + inset - train_.slowest * px_per_speed_;
  }

  /// Levers below one another, each as high as its ends are many.
  void lay_rows(double top_px, double bottom_px) {
    const std::size_t count = plan_.rows.size();
    const double between = plan_.levers > 1 ? size(54) : 0;
    const double each = (bottom_px - top_px - between * static_cast<double>(plan_.levers - 1)) /
                        std::max(static_cast<double>(count - plan_.levers), 1.0);
    double at = top_px;
    row_y_.assign(count, top_px);
    for (std::size_t lever = 0; lever < plan_.levers; ++lever) {
      std::vector<std::size_t> own;
      for (std::size_t i = 0; i < count; ++i) {
        if (plan_.rows[i].lever == lever) {
          own.push_back(i);
        }
      }
      const double height = each * static_cast<double>(own.size() - 1);
      for (std::size_t i = 0; i < own.size(); ++i) {
        row_y_[own[i]] = at + (own.size() > 1 ? plan_.rows[own[i]].along * height : 0);
      }
      spread(own, at, at + height);
      at += height + between;
    }
  }

  /// Ends that the tooth counts put nearer together than words can stand.
  void spread(const std::vector<std::size_t>& own, double top_px, double bottom_px) {
    const double least = size(46);
    demand(bottom_px - top_px >= least * static_cast<double>(own.size() - 1) - 0.5);
    for (int pass = 0; pass < 40; ++pass) {
      for (std::size_t i = 1; i < own.size(); ++i) {
        const double lack = least - (row_y_[own[i]] - row_y_[own[i - 1]]);
        if (lack > 0) {
          row_y_[own[i]] = std::min(row_y_[own[i]] + lack / 2 + 0.01, bottom_px);
          row_y_[own[i - 1]] = std::max(row_y_[own[i - 1]] - lack / 2 - 0.01, top_px);
        }
      }
    }
  }

  /// Each as near to its row as the others let it be.
  void lay_lanes(const std::vector<TrainLane>& lanes, std::vector<double>& at) {
    at.clear();
    const double apart = size(lane_px);
    const double top = box_.y_px + size(46);
    const double bottom = axis_px_ - size(30);
    // A row's first lane goes straight on from it, the others stand below.
    std::vector<std::size_t> seen(plan_.rows.size(), 0);
    for (const TrainLane& lane : lanes) {
      at.push_back(row_y_[lane.row] + static_cast<double>(seen[lane.row]++) * apart);
    }
    demand(static_cast<double>(lanes.size()) * apart <= bottom - top + apart + 0.5);
    for (int pass = 0; pass < 60; ++pass) {
      for (std::size_t i = 0; i < at.size(); ++i) {
        if (i > 0 && at[i] - at[i - 1] < apart) {
          const double lack = (apart - (at[i] - at[i - 1])) / 2;
          at[i] += lack;
          at[i - 1] -= lack;
        }
        at[i] = std::clamp(at[i], top, std::max(bottom, top));
      }
    }
    for (std::size_t i = 1; i < at.size(); ++i) {
      demand(at[i] - at[i - 1] >= 0.93 * apart);
    }
  }

  [[nodiscard]] double speed_x(double speed) const { return nought_px_ + speed * px_per_speed_; }
  [[nodiscard]] const TrainMember* member_of(std::size_t row) const {
    return train_.member(plan_.rows[row].member);
  }

  // ------------------------------------------------ the speeds

  void speeds() {
    const double top = box_.y_px + size(4);
    const Lettering small = lettering(12.5, FontWeight::regular, ink::quiet_text);
    const double wordy = words_width(ruler_, "with the input", small) + size(8);
    const auto upright = [&](double speed, const Stroke& stroke, const std::string& words) {
      const double x = speed_x(speed);
      drawing().add(line(x, top, x, axis_px_ + size(5), stroke));
      const std::string figure = speed < 0 ? "−1" : speed > 0 ? "1" : "0";
      put_words(drawing(), ruler_, px_per_speed_ >= wordy ? words : figure, small, x,
                axis_px_ + size(8), 0, TextAlign::centre);
    };
    drawing().add(line(left_px_, axis_px_, right_px_, axis_px_, {ink::quiet_line, 1, 0, 0}));
    for (int tenth = static_cast<int>(std::ceil(10 * train_.slowest - 1e-9));
         tenth <= static_cast<int>(std::floor(10 * train_.fastest + 1e-9)); ++tenth) {
      const double x = speed_x(0.1 * tenth);
      const double high = size(tenth % 5 == 0 ? 5 : 3);
      drawing().add(line(x, axis_px_, x, axis_px_ + high, {ink::quiet_line, 1, 0, 0}));
    }
    upright(0, {ink::line, 1.6 * type_, 0, 0}, "stands still");
    upright(1, {ink::quiet_line, 1, size(3), size(4)}, "with the input");
    if (train_.slowest < -0.9) {
      upright(-1, {ink::quiet_line, 1, size(3), size(4)}, "against it");
    }
  }

  [[nodiscard]] Stroke row_stroke(const TrainMember* member) const {
    const bool path = member != nullptr && member->path;
    return path ? Stroke{ink::path, 2.4 * type_, 0, 0} : Stroke{ink::quiet_line, 1.2 * type_, 0, 0};
  }

  void rows() {
    const Lettering type = lettering(14, FontWeight::semibold, ink::text);
    for (std::size_t i = 0; i < plan_.rows.size(); ++i) {
      const TrainMember* member = member_of(i);
      const std::string name = member == nullptr ? plan_.rows[i].member : member->name;
      drawing().add(line(join_px_, row_y_[i], right_px_, row_y_[i], {ink::quiet_line, 1, 0, 0}));
      const double width = size(names_px - 8);
      demand(words_fit(ruler_, name, type, width));
      const double height = words_height(ruler_, name, type, width);
      demand(height <= size(58));
      put_words(drawing(), ruler_, name, type, left_px_ - size(6), row_y_[i] - height, width,
                TextAlign::right);
    }
    // One member on two levers is one member.
    double x = join_px_ + size(7);
    for (std::size_t i = 0; i < plan_.rows.size(); ++i) {
      for (std::size_t j = i + 1; j < plan_.rows.size(); ++j) {
        if (plan_.rows[i].member == plan_.rows[j].member) {
          drawing().add(line(x, row_y_[i], x, row_y_[j], row_stroke(member_of(i))));
          x += size(7);
        }
      }
    }
  }

  // ------------------------------------------------ the levers

  void levers() {
    for (std::size_t lever = 0; lever < plan_.levers; ++lever) {
      std::vector<PointPx> ends;
      std::size_t path_from = plan_.rows.size();
      std::size_t path_to = 0;
      bool settled = true;
      for (std::size_t i = 0; i < plan_.rows.size(); ++i) {
        if (plan_.rows[i].lever != lever) {
          continue;
        }
        const TrainMember* member = member_of(i);
        settled = settled && member != nullptr && member->speed;
        if (settled) {
          ends.push_back({speed_x(*member->speed), row_y_[i]});
          if (member->path) {
            path_from = std::min(path_from, ends.size() - 1);
            path_to = ends.size();
          }
        }
      }
      if (!settled || ends.size() < 2) {
        continue;
      }
      drawing().add(PolylineShape{ends, false, {ink::line, 4.5 * type_, 0, 0}});
      if (path_to > path_from + 1) {
        const std::vector<PointPx> path(ends.begin() + static_cast<std::ptrdiff_t>(path_from),
                                        ends.begin() + static_cast<std::ptrdiff_t>(path_to));
        drawing().add(PolylineShape{path, false, {ink::path, 4.5 * type_, 0, 0}});
      }
    }
  }

  [[nodiscard]] double most_torque() const {
    double most = 0;
    for (const TrainRow& row : plan_.rows) {
      most = std::max(most, std::abs(row.torque_Nm));
    }
    return most;
  }

  void node(std::size_t row) {
    const TrainMember* member = member_of(row);
    const double y = row_y_[row];
    if (member == nullptr) {
      return;
    }
    const Lettering figures = lettering(13.5, FontWeight::semibold, ink::text);
    if (!member->speed) {
      const Lettering quiet = lettering(13, FontWeight::regular, ink::quiet_text);
      put_clear("nothing settles its speed", quiet, left_px_ + size(10), y + size(3),
                TextAlign::left);
      return;
    }
    const double x = speed_x(*member->speed);
    const bool held = std::abs(*member->speed) < 5e-4;
    const double torque = plan_.rows[row].torque_Nm;
    const double most = most_torque();
    const bool turns = most > 0 && std::abs(torque) > 1e-6 * most;
    if (turns) {
      torque_arrow(*member, torque, torque / most, {x, y}, leaning(row, 1));
    }
    const double radius = size(6.5);
    const Colour colour = member->path ? ink::path : ink::line;
    drawing().add(CircleShape{
        {x, y}, radius, held ? ink::line : ink::paper, Stroke{colour, 2.4 * type_, 0, 0}});
    // The speed stands above its end, on the side that the lever does not go to.
    const double side = leaning(row, -1) > 0 ? -1 : 1;
    const double high = words_height(ruler_, "0", figures, 0);
    put_words(drawing(), ruler_, speed_words(*member->speed), figures, x + side * size(11),
              y - high - size(2), 0, side > 0 ? TextAlign::left : TextAlign::right);
  }

  /// How far to the right the lever goes for one down (step 1) or up (-1) from a row.
  [[nodiscard]] double leaning(std::size_t row, int step) const {
    const std::size_t next = row + static_cast<std::size_t>(step);
    if (next >= plan_.rows.size() || plan_.rows[next].lever != plan_.rows[row].lever) {
      return 0;
    }
    const TrainMember* here = member_of(row);
    const TrainMember* there = member_of(next);
    if (here == nullptr || there == nullptr || !here->speed || !there->speed) {
      return 0;
    }
    return (speed_x(*there->speed) - speed_x(*here->speed)) /
           std::max(std::abs(row_y_[next] - row_y_[row]), 1.0);
  }

  void torque_arrow(const TrainMember& member, double torque_Nm, double share, PointPx at,
                    double lean) {
    const double x = at.x_px;
    const double y = at.y_px;
    const Colour colour = member.path ? ink::path : ink::line;
    const double way = share > 0 ? 1 : -1;
    const double length = size(26 + (arrow_px - 26) * std::abs(share));
    const double from = x + way * size(7);
    put_arrow(drawing(), from, from + way * length, y, size(3.2), colour);
    const std::string words = well_set(print_torque(std::abs(torque_Nm), train_.unit));
    const Lettering type = lettering(13, FontWeight::medium, colour);
    // Clear of the lever where that goes the same way.
    const double off = std::max(size(10), way * lean * size(24) + size(7));
    put_clear(words, type, x + way * std::min(off, size(90)), y + size(5),
              way > 0 ? TextAlign::left : TextAlign::right);
  }

  /// Words on paper of their own, so that the lines of the scale do not run through them.
  void put_clear(const std::string& words, const Lettering& type, double x, double y,
                 TextAlign align) {
    const double wide = words_width(ruler_, words, type);
    const double high = words_height(ruler_, words, type, 0);
    const double left = align == TextAlign::right ? x - wide : x;
    Colour paper = ink::paper;
    paper.opacity = 230;
    drawing().add(plain_rect({left - size(2), y, wide + size(4), high + size(2)}, paper));
    put_words(drawing(), ruler_, words, type, x, y, 0, align);
  }

  // ------------------------------------------------ the elements

  void element(const TrainElement& one, double middle_px, double y_px, double width_px) {
    put_symbol(drawing(), one, {middle_px, y_px}, type_);
    const bool off = one.look == ElementLook::off || one.look == ElementLook::overruns;
    const Lettering name = lettering(12, FontWeight::medium, off ? ink::quiet_text : ink::text);
    const double high = words_height(ruler_, one.name, name, width_px);
    demand(words_fit(ruler_, one.name, name, width_px) && high <= size(33));
    put_words(drawing(), ruler_, one.name, name, middle_px, y_px - size(13) - high, width_px,
              TextAlign::centre);
    const bool carries = one.torque_Nm && std::abs(*one.torque_Nm) > 1e-6;
    std::string says = carries && one.look == ElementLook::on ? "carries" : word_for(one.look);
    if (carries) {
      says += " " + well_set(print_torque(std::abs(*one.torque_Nm), train_.unit));
    }
    // Where both do not fit the torque alone says that it carries.
    const Lettering strong = lettering(12, FontWeight::semibold, ink::text);
    if (carries && words_width(ruler_, says, strong) > width_px) {
      says = well_set(print_torque(std::abs(*one.torque_Nm), train_.unit));
    }
    const Colour colour = one.look == ElementLook::slips ? page::wrong
                          : off                          ? ink::quiet_text
                          : one.path                     ? ink::path
                                                         : ink::text;
    put_words(drawing(), ruler_, says, lettering(12, FontWeight::semibold, colour), middle_px,
              y_px + size(12), 0, TextAlign::centre);
    demand(words_width(ruler_, says, lettering(12, FontWeight::semibold, colour)) <= width_px);
    drawn_.places.push_back(
        {one.id, {middle_px - width_px / 2, y_px - size(26), width_px, size(52)}});
  }

  /// Elements one behind the other from near_px outward; where the last one ends.
  double chain(const TrainLane& lane, double near_px, double y_px, double way) {
    double x = near_px;
    for (std::size_t i = 0; i < lane.elements.size(); ++i) {
      const TrainElement& one = *lane.elements[i];
      const double middle = x + way * size(cell_px) / 2;
      const double half = symbol_half_px(type_);
      drawing().add(line(x, y_px, middle - way * half, y_px, stroke_of(one, type_)));
      drawing().add(
          line(middle + way * half, y_px, x + way * size(cell_px), y_px, stroke_of(one, type_)));
      element(one, middle, y_px, size(cell_px - 8));
      x += way * size(cell_px);
    }
    return x;
  }

  void lanes_to_case() {
    if (plan_.to_case.empty()) {
      return;
    }
    const double wall = box_.x_px + size(wall_px);
    double top = case_y_.front();
    double bottom = case_y_.back();
    for (std::size_t i = 0; i < plan_.to_case.size(); ++i) {
      const TrainLane& lane = plan_.to_case[i];
      const double y = case_y_[i];
      const Stroke stroke = stroke_of(*lane.elements.front(), type_);
      if (std::abs(y - row_y_[lane.row]) > 0.5) {
        drawing().add(line(join_px_, row_y_[lane.row], join_px_, y, stroke));
      }
      const double end = chain(lane, join_px_, y, -1);
      drawing().add(line(end, y, wall, y, stroke_of(*lane.elements.back(), type_)));
    }
    top -= size(34);
    bottom += size(30);
    HatchShape hatch;
    hatch.x_px = box_.x_px;
    hatch.y_px = top;
    hatch.width_px = size(wall_px);
    hatch.height_px = bottom - top;
    hatch.style = HatchStyle::aluminium;
    hatch.ground = page::ground_of("aluminium", false);
    hatch.line = colour_of(0x1f1d1b, 110);
    hatch.step_px = size(6);
    drawing().add(hatch);
    drawing().add(line(wall, top, wall, bottom, {ink::line, 1.6 * type_, 0, 0}));
    put_words(drawing(), ruler_, "case", lettering(12.5, FontWeight::regular, ink::quiet_text),
              box_.x_px, bottom + size(3), 0);
  }

  void lanes_to_input() {
    for (std::size_t i = 0; i < plan_.to_input.size(); ++i) {
      const TrainLane& lane = plan_.to_input[i];
      const double y = input_y_[i];
      const Stroke stroke = stroke_of(*lane.elements.front(), type_);
      const TrainMember* member = member_of(lane.row);
      const bool power = lane.elements.front()->path && member != nullptr && member->speed;
      const double from = power ? speed_x(*member->speed) : right_px_;
      drawing().add(line(from, row_y_[lane.row], out_px_, row_y_[lane.row], stroke));
      if (std::abs(y - row_y_[lane.row]) > 0.5) {
        drawing().add(line(out_px_, row_y_[lane.row], out_px_, y, stroke));
      }
      const double end = chain(lane, out_px_, y, 1);
      drawing().add(line(end, y, bar_px_, y, stroke_of(*lane.elements.back(), type_)));
    }
  }

  /// Between two rows, upright.
  void lanes_across() {
    for (const TrainLane& lane : plan_.across) {
      const TrainElement& one = *lane.elements.front();
      const double top = std::min(row_y_[lane.row], row_y_[lane.other_row]);
      const double bottom = std::max(row_y_[lane.row], row_y_[lane.other_row]);
      const double middle = (top + bottom) / 2;
      const double x = across_px_ + size(cell_px) / 2;
      const Stroke stroke = stroke_of(one, type_);
      const double half = symbol_half_px(type_);
      const double reach = size(cell_px / 2 - 6);
      demand(bottom - top >= size(64));
      for (const double side : {-1.0, 1.0}) {
        const double y = side < 0 ? top : bottom;
        drawing().add(PolylineShape{{{right_px_, y},
                                     {x + side * reach, y},
                                     {x + side * reach, middle},
                                     {x + side * half, middle}},
                                    false,
                                    stroke});
      }
      element(one, x, middle, 2 * reach - size(8));
    }
  }
  // ------------------------------------------------ in and out

  std::string torque_words(const std::optional<double>& torque_Nm) const {
    return torque_Nm ? well_set(print_torque(std::abs(*torque_Nm), train_.unit)) : std::string();
  }

  void told_beside(const std::string& name, const std::string& torque, double x, double y,
                   TextAlign align) {
    const Lettering strong = lettering(14, FontWeight::bold, ink::path);
    const double high = words_height(ruler_, name, strong, 0);
    put_words(drawing(), ruler_, name, strong, x, y - high - size(5), 0, align);
    put_words(drawing(), ruler_, torque, lettering(14, FontWeight::semibold, ink::path), x,
              y + size(7), 0, align);
  }

  void ways_in_and_out() {
    for (std::size_t i = 0; i < plan_.rows.size(); ++i) {
      const std::string& member = plan_.rows[i].member;
      if (member == train_.output) {
        const TrainMember* out = member_of(i);
        const bool power = out != nullptr && out->path && out->speed;
        if (!power) {
          drawing().add(line(right_px_, row_y_[i], out_px_, row_y_[i], row_stroke(out)));
        }
        put_arrow(drawing(), power ? speed_x(*out->speed) : out_px_, out_px_ + size(72), row_y_[i],
                  size(3.2), power ? ink::path : ink::quiet_line);
        told_beside("output", torque_words(train_.output_Nm), out_px_ + size(2), row_y_[i],
                    TextAlign::left);
        break;
      }
    }
    if (plan_.input_has_row) {
      for (std::size_t i = 0; i < plan_.rows.size(); ++i) {
        if (plan_.rows[i].member == train_.input) {
          put_arrow(drawing(), box_.right_px(), right_px_, row_y_[i], size(4), ink::path);
          told_beside("input", torque_words(train_.input_Nm), box_.right_px(), row_y_[i],
                      TextAlign::right);
          break;
        }
      }
      return;
    }
    if (plan_.to_input.empty()) {
      return;
    }
    // A shaft that all its clutches stand on.
    const double top = input_y_.front() - size(20);
    const double bottom = input_y_.back() + size(20);
    drawing().add(plain_rect({bar_px_ - size(3.5), top, size(7), bottom - top}, ink::path));
    put_words(drawing(), ruler_, "input", lettering(14, FontWeight::bold, ink::path),
              box_.right_px(), bottom + size(3), 0, TextAlign::right);
    put_words(drawing(), ruler_, torque_words(train_.input_Nm),
              lettering(14, FontWeight::semibold, ink::path), box_.right_px(), bottom + size(21), 0,
              TextAlign::right);
  }

  const TrainPicture& train_;
  const TrainPlan& plan_;
  const Box& box_;
  double type_;
  const TextRuler& ruler_;
  DrawnTrain drawn_;
  std::vector<double> row_y_;
  std::vector<double> case_y_;
  std::vector<double> input_y_;
  double join_px_ = 0; ///< where lanes to the case meet their rows
  double left_px_ = 0; ///< of the speeds
  double right_px_ = 0;
  double across_px_ = 0;
  double out_px_ = 0; ///< where lanes to the input meet their rows
  double bar_px_ = 0; ///< the input's shaft
  double axis_px_ = 0;
  double nought_px_ = 0;
  double px_per_speed_ = 1;
};

} // namespace

DrawnTrain draw_train(const TrainPicture& train, const Box& box, const TextRuler& ruler) {
  const TrainPlan plan = plan_of(train);
  DrawnTrain drawn;
  if (plan.rows.empty()) {
    put_words(drawn.drawing, ruler, "No planetary set is stated.",
              {15, FontWeight::regular, ink::quiet_text}, box.x_px, box.y_px, box.width_px);
    return drawn;
  }
  for (double type = 1.3; type > 0.24; type -= 0.04) {
    drawn = TrainDrawer(train, plan, box, type, ruler).draw();
    if (drawn.fits) {
      break;
    }
  }
  return drawn;
}

} // namespace lugline
