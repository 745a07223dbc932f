#include "viewer/stage/report_drawing.h"

#include "viewer/stage/figure_setting.h"
#include "viewer/stage/page_parts.h"

#include <algorithm>
#include <utility>

namespace lugline {

namespace {

constexpr int most_left_out = 3;

struct Setting {
  double type = 1;
  int columns = 1;
  int left_out = 0; ///< 1: sources and notes; 2: also how each figure was come by; 3: also what
                    ///< was given
};

/// A piece of a column that is not broken.
struct Block {
  Drawing2d drawing; ///< from its own corner
  double height_px = 0;
  double before_px = 0;   ///< kept free above it, but not at a column's top
  bool with_next = false; ///< a heading stays with what it heads
};

Colour verdict_colour(ReportVerdict verdict) {
  switch (verdict) {
  case ReportVerdict::good:
    return page::know_bar;
  case ReportVerdict::bad:
    return page::wrong;
  case ReportVerdict::none:
  case ReportVerdict::refused:
    break;
  }
  return ink::line;
}

class ReportSetter {
public:
  ReportSetter(const CalculationReport& report, const Box& box, LengthUnit unit,
               const TextRuler& ruler, const ReportLook& look, const Setting& setting)
      : report_(report), box_(box), unit_(unit), ruler_(ruler), look_(look), setting_(setting),
        type_(setting.type) {}

  DrawnReport set() {
    DrawnReport drawn;
    drawn.type = type_;
    drawn.left_out = setting_.left_out;
    at_px_ = box_.y_px;
    head();
    measure_columns();
    gather();
    drawn.fits = fits_ && place(drawn);
    drawn.used = {box_.x_px, box_.y_px, used_px_, bottom_px_ - box_.y_px};
    drawn.drawing = std::move(drawing_);
    return drawn;
  }

private:
  [[nodiscard]] double size(double px) const { return px * type_; }
  [[nodiscard]] Lettering lettering(double px, FontWeight weight, Colour colour,
                                    double step = 1.34) const {
    return {size(px), weight, colour, step, true};
  }
  /// The head is set no wider than a line can be read.
  [[nodiscard]] double head_width() const { return std::min(box_.width_px, size(860)); }

  void put(const std::string& words, const Lettering& type, double after_px, double indent_px = 0) {
    if (words.empty()) {
      return;
    }
    const double width = head_width() - indent_px;
    fits_ = fits_ && words_fit(ruler_, words, type, width);
    used_px_ = std::max(used_px_, indent_px + words_width(ruler_, words, type, width));
    at_px_ = put_words(drawing_, ruler_, words, type, box_.x_px + indent_px, at_px_, width) +
             size(after_px);
  }

  // ------------------------------------------------ the head

  void head() {
    if (look_.head) {
      put(look_.eyebrow, lettering(13.5, FontWeight::medium, ink::quiet_text), 8);
      put(well_set(report_.title), lettering(27, FontWeight::bold, ink::text, 1.2), 8);
    }
    cautions();
    verdict();
    if (look_.answer) {
      answer();
    }
    bottom_px_ = std::max(bottom_px_, at_px_);
  }

  void cautions() {
    const double pad = size(12);
    for (const std::string& words : report_.cautions) {
      const Lettering strong = lettering(15, FontWeight::semibold, ink::text);
      const double width = head_width() - 2 * pad;
      const double height = words_height(ruler_, words, strong, width) + 2 * pad - size(3);
      drawing_.add(plain_rect({box_.x_px + 1, at_px_, head_width() - 2, height}, ink::caution,
                              Stroke{ink::line, 2, 0, 0}));
      fits_ = fits_ && words_fit(ruler_, words, strong, width);
      put_words(drawing_, ruler_, words, strong, box_.x_px + pad, at_px_ + pad - size(2), width);
      at_px_ += height + size(10);
      used_px_ = std::max(used_px_, head_width());
    }
  }

  void verdict() {
    if (report_.verdict_words.empty()) {
      return;
    }
    const bool bad = report_.verdict == ReportVerdict::bad;
    const double top_px = at_px_;
    put(well_set(report_.verdict_words),
        lettering(18, FontWeight::semibold, bad ? page::wrong : ink::text, 1.3), 0, size(16));
    drawing_.add(
        plain_rect({box_.x_px, top_px, size(4), at_px_ - top_px}, verdict_colour(report_.verdict)));
    at_px_ += size(14);
  }

  /// The one large figure, and beside it the scale that it stands on.
  void answer() {
    const bool bad = report_.verdict == ReportVerdict::bad;
    std::string what;
    SetFigure figure;
    std::string other;
    if (report_.scale) {
      const ReportScale& scale = *report_.scale;
      what = scale.what;
      figure = set_figure(scale.of, scale.value_si, scale.plus_minus_si, unit_);
      other = in_the_other(scale.of, scale.value_si);
    } else if (!report_.results.empty() && look_.head) {
      const ReportLine& line = report_.results.front();
      what = line.what;
      figure = set_figure(line.of, line.si, line.plus_minus_si, unit_);
      other = in_the_other(line.of, line.si);
    } else {
      return;
    }
    const double top_px = at_px_;
    const double left_px = large_figure(well_set(what), figure, other, bad);
    const double figure_foot = at_px_;
    if (report_.scale) {
      const double gap = size(34);
      const double beside = std::min(head_width() - left_px - gap, size(430));
      const bool fits = beside >= size(210);
      const Box box = fits ? Box{box_.x_px + left_px + gap, top_px, beside, 0}
                           : Box{box_.x_px, figure_foot, std::min(head_width(), size(430)), 0};
      const double foot = put_scale(drawing_, *report_.scale, box, type_, bad, unit_, ruler_);
      at_px_ = std::max(figure_foot, foot);
      used_px_ = std::max(used_px_, box.right_px() - box_.x_px);
    }
    at_px_ += size(12);
  }

  /// Lengths are said in both units.
  [[nodiscard]] std::string in_the_other(FigureOf of, double si) const {
    const LengthUnit other = unit_ == LengthUnit::inch ? LengthUnit::millimetre : LengthUnit::inch;
    const std::string words = print_figure(of, si, other);
    return words == print_figure(of, si, unit_) ? std::string() : well_set(words);
  }

  /// Its right edge, from the box's left.
  double large_figure(const std::string& what, const SetFigure& figure, const std::string& other,
                      bool bad) {
    const Lettering name = lettering(13.5, FontWeight::medium, ink::quiet_text);
    const double most = head_width();
    const double foot = put_words(drawing_, ruler_, what, name, box_.x_px, at_px_, most);
    double right = words_width(ruler_, what, name, most);
    fits_ = fits_ && words_fit(ruler_, what, name, most);
    const Lettering number = lettering(46, FontWeight::bold, bad ? page::wrong : ink::text, 1.1);
    const Lettering beside = lettering(17, FontWeight::medium, ink::text, 1.2);
    const double number_width = words_width(ruler_, figure.number(), number);
    const std::string unit =
        figure.unit + (figure.plus_minus.empty() ? "" : "  " + figure.plus_minus);
    const double base = foot + size(5) + ruler_.capital_px(number.size_px, number.weight);
    const double number_foot = put_words(
        drawing_, ruler_, figure.number(), number, box_.x_px,
        base - ruler_.capital_px(number.size_px, number.weight) - 0.06 * number.size_px, 0);
    const double x = box_.x_px + number_width + size(7);
    put_words(drawing_, ruler_, unit, beside, x,
              base - ruler_.capital_px(beside.size_px, beside.weight) - 0.06 * beside.size_px, 0);
    right = std::max(right, number_width + size(7) + words_width(ruler_, unit, beside));
    at_px_ = number_foot;
    const Lettering second = lettering(14, FontWeight::semibold, ink::text);
    at_px_ = put_words(drawing_, ruler_, other, second, box_.x_px, at_px_ - size(4), 0);
    right = std::max(right, words_width(ruler_, other, second));
    fits_ = fits_ && right <= most;
    used_px_ = std::max(used_px_, right);
    return right;
  }

  // ------------------------------------------------ the columns

  void measure_columns() {
    const double gap = size(36);
    const double most = size(look_.widest_px);
    const double each = (box_.width_px - (setting_.columns - 1) * gap) / setting_.columns;
    column_px_ = std::min(each, most);
    gap_px_ = gap;
    for (const auto* lines : {&report_.inputs, &report_.working, &report_.results}) {
      for (const ReportLine& one : *lines) {
        const bool result = lines == &report_.results;
        figures_.take(set_figure(one.of, one.si, one.plus_minus_si, unit_), row_type(result),
                      ruler_);
      }
    }
    words_px_ = column_px_ - figures_.width_px() - size(14);
    fits_ = fits_ && words_px_ >= size(96);
    words_px_ = std::max(words_px_, size(60));
  }

  [[nodiscard]] Lettering row_type(bool result) const {
    return lettering(15, result ? FontWeight::semibold : FontWeight::regular, ink::text, 1.28);
  }

  void gather() {
    if (setting_.left_out < 3) {
      section("Given", report_.inputs, false);
    }
    section("Working", report_.working, false);
    section("Result", report_.results, true);
    if (setting_.left_out < 1) {
      told("Notes", report_.notes);
      told("Sources", report_.sources);
    } else {
      Block block = words_block("Shown in part for want of room: the command line prints it whole.",
                                lettering(12.5, FontWeight::regular, ink::quiet_text));
      block.before_px = size(10);
      blocks_.push_back(std::move(block));
    }
  }

  void section(const std::string& name, const std::vector<ReportLine>& lines, bool result) {
    if (lines.empty()) {
      return;
    }
    blocks_.push_back(heading(name, result));
    for (const ReportLine& one : lines) {
      blocks_.push_back(row(one, result));
    }
  }

  void told(const std::string& name, const std::vector<std::string>& all) {
    if (all.empty()) {
      return;
    }
    blocks_.push_back(heading(name, false));
    for (const std::string& words : all) {
      Block block =
          words_block(well_set(words), lettering(13, FontWeight::regular, ink::quiet_text, 1.36));
      block.before_px = size(2);
      blocks_.push_back(std::move(block));
    }
  }

  Block words_block(const std::string& words, const Lettering& type) {
    Block block;
    fits_ = fits_ && words_fit(ruler_, words, type, column_px_);
    block.height_px = put_words(block.drawing, ruler_, words, type, 0, 0, column_px_);
    return block;
  }

  /// A name above a rule; a result's rule is as heavy as that under a sum.
  Block heading(const std::string& name, bool result) {
    Block block;
    const Lettering type = lettering(12.5, FontWeight::semibold, ink::quiet_text);
    const double foot = put_words(block.drawing, ruler_, name, type, 0, 0, 0);
    const double y = foot + size(2);
    block.drawing.add(line(0, y, column_px_, y,
                           {result ? ink::line : ink::quiet_line, result ? 1.6 : 1.0, 0, 0}));
    block.height_px = y + size(4);
    block.before_px = size(14);
    block.with_next = true;
    return block;
  }

  Block row(const ReportLine& one, bool result) {
    Block block;
    const Lettering type = row_type(result);
    const std::string what = well_set(one.what);
    fits_ = fits_ && words_fit(ruler_, what, type, words_px_);
    double y = put_words(block.drawing, ruler_, what, type, 0, 0, words_px_);
    const double baseline = 0.06 * type.size_px + ruler_.capital_px(type.size_px, type.weight);
    const SetFigure figure = set_figure(one.of, one.si, one.plus_minus_si, unit_);
    put_figure(block.drawing, figure, figures_, column_px_, baseline, type);
    leader(block.drawing, what, figure, type, baseline);
    if (!one.how.empty() && setting_.left_out < 2) {
      const Lettering quiet = lettering(12.5, FontWeight::regular, ink::quiet_text, 1.3);
      const std::string how = well_set(one.how);
      fits_ = fits_ && words_fit(ruler_, how, quiet, words_px_);
      y = put_words(block.drawing, ruler_, how, quiet, 0, y + size(0.5), words_px_);
    }
    block.height_px = y;
    block.before_px = size(5);
    return block;
  }

  /// Dots from the end of the words' first line to the figure, as in a table of contents.
  void leader(Drawing2d& drawing, const std::string& what, const SetFigure& figure,
              const Lettering& type, double baseline_px) const {
    TextShape words;
    words.words = kept_together(what);
    words.size_px = type.size_px;
    words.weight = type.weight;
    words.even_digits = true;
    words.wrap_px = words_px_;
    const std::string first = lines_of(words, ruler_).front();
    const double from = ruler_.width_px(first, type.size_px, type.weight, true) + size(8);
    const double whole = ruler_.width_px(figure.whole, type.size_px, type.weight, true);
    const double to = column_px_ - figures_.width_px() + figures_.whole_px - whole - size(8);
    if (to - from > size(16)) {
      drawing.add(
          line(from, baseline_px - 0.5, to, baseline_px - 0.5, {ink::quiet_line, 1, 1, size(4)}));
    }
  }

  // ------------------------------------------------ putting them down

  /// How many columns the blocks fill where none is higher than that.
  [[nodiscard]] int columns_at(double height_px) const {
    int columns = 1;
    double filled = 0;
    for (std::size_t i = 0; i < blocks_.size(); ++i) {
      double need = blocks_[i].height_px;
      for (std::size_t j = i; blocks_[j].with_next && j + 1 < blocks_.size(); ++j) {
        need += blocks_[j + 1].before_px + blocks_[j + 1].height_px;
      }
      const double before = filled > 0 ? blocks_[i].before_px : 0;
      if (filled > 0 && filled + before + need > height_px) {
        ++columns;
        filled = 0;
      }
      if (need > height_px) {
        return 1000;
      }
      filled += (filled > 0 ? blocks_[i].before_px : 0) + blocks_[i].height_px;
    }
    return columns;
  }

  bool place(DrawnReport& drawn) {
    const double room = box_.bottom_px() - at_px_;
    if (blocks_.empty()) {
      return at_px_ <= box_.bottom_px() + 0.5;
    }
    if (room <= 0 || columns_at(room) > setting_.columns) {
      return false;
    }
    double least = 0;
    double most = room;
    for (int i = 0; i < 24; ++i) {
      const double middle = (least + most) / 2;
      (columns_at(middle) <= setting_.columns ? most : least) = middle;
    }
    drawn.columns = put_blocks(most + 0.01);
    return true;
  }

  int put_blocks(double height_px) {
    int column = 0;
    double filled = 0;
    for (std::size_t i = 0; i < blocks_.size(); ++i) {
      double need = blocks_[i].height_px;
      for (std::size_t j = i; blocks_[j].with_next && j + 1 < blocks_.size(); ++j) {
        need += blocks_[j + 1].before_px + blocks_[j + 1].height_px;
      }
      if (filled > 0 && filled + blocks_[i].before_px + need > height_px) {
        ++column;
        filled = 0;
      }
      filled += filled > 0 ? blocks_[i].before_px : 0;
      move_by(blocks_[i].drawing, box_.x_px + column * (column_px_ + gap_px_), at_px_ + filled);
      for (FlatShape& shape : blocks_[i].drawing.shapes) {
        drawing_.add(std::move(shape));
      }
      filled += blocks_[i].height_px;
      bottom_px_ = std::max(bottom_px_, at_px_ + filled);
      used_px_ = std::max(used_px_, column * (column_px_ + gap_px_) + column_px_);
    }
    return column + 1;
  }

  const CalculationReport& report_;
  const Box& box_;
  LengthUnit unit_;
  const TextRuler& ruler_;
  const ReportLook& look_;
  const Setting& setting_;
  double type_;
  Drawing2d drawing_;
  std::vector<Block> blocks_;
  FigureColumn figures_;
  double column_px_ = 0;
  double gap_px_ = 0;
  double words_px_ = 0; ///< of a column, beside its figures
  double at_px_ = 0;
  double bottom_px_ = 0;
  double used_px_ = 0;
  bool fits_ = true;
};

/// From the largest to the smallest; at each size one column first.
std::vector<Setting> settings(const ReportLook& look) {
  std::vector<Setting> all;
  const auto add = [&](double type, int left_out) {
    for (int columns = 1; columns <= look.most_columns; ++columns) {
      all.push_back({type, columns, left_out});
    }
  };
  for (double type = look.most_type; type > 0.72; type -= 0.05) {
    add(type, 0);
  }
  for (double type = 0.72; type > 0.44; type -= 0.04) {
    add(type, 0);
  }
  for (int left_out = 1; left_out <= most_left_out; ++left_out) {
    for (double type = 0.6; type > 0.3; type -= 0.05) {
      add(type, left_out);
    }
  }
  return all;
}

} // namespace

DrawnReport draw_report(const CalculationReport& report, const Box& box, LengthUnit unit,
                        const TextRuler& ruler, const ReportLook& look) {
  DrawnReport drawn;
  for (const Setting& setting : settings(look)) {
    drawn = ReportSetter(report, box, unit, ruler, look, setting).set();
    if (drawn.fits) {
      return drawn;
    }
  }
  // Not even the answer finds room: the verdict alone, as small as it must be.
  Drawing2d alone;
  Lettering type{12, FontWeight::semibold, ink::text};
  const std::string& words = report.verdict_words.empty() ? report.title : report.verdict_words;
  while (type.size_px > 2 && (!words_fit(ruler, words, type, box.width_px) ||
                              words_height(ruler, words, type, box.width_px) > box.height_px)) {
    type.size_px -= 0.5;
  }
  put_words(alone, ruler, words, type, box.x_px, box.y_px, box.width_px);
  drawn.drawing = std::move(alone);
  drawn.used = box;
  drawn.left_out = most_left_out + 1;
  return drawn;
}

std::vector<std::string> words_of(const Drawing2d& drawing) {
  std::vector<std::string> words;
  for (const FlatShape& shape : drawing.shapes) {
    if (const auto* text = std::get_if<TextShape>(&shape)) {
      words.push_back(text->words);
    }
  }
  return words;
}

} // namespace lugline
