// The names and thicknesses beside the gap column.
#include "viewer/stage/page_parts.h"

#include <algorithm>

namespace lugline::page {

namespace {

constexpr double leader_px = 18;    ///< from a label to the box's right edge
constexpr double figure_gap_px = 8; ///< between a name and its figure
constexpr double largest_px = 13;
constexpr double smallest_one_line_px = 11; ///< below it a name goes on to a second line
constexpr double line_step = 1.12;

struct SetLabel {
  const ColumnLabel* label = nullptr;
  Lettering name;
  Lettering figure;
  double figure_width_px = 0;
  double room_px = 0;   ///< for the name
  double height_px = 0; ///< of what it takes up, with a little air
  double y_px = 0;      ///< of its middle
};

class Setter {
public:
  Setter(const std::vector<ColumnLabel>& labels, const Box& box, const TextRuler& ruler)
      : labels_(labels), box_(box), ruler_(ruler) {}

  /// As large as lets all be in one line; failing that, in lines, as large as
  /// lets all be there at all.
  [[nodiscard]] std::vector<SetLabel> set() const {
    std::vector<SetLabel> sets;
    for (double size = largest_px; size >= smallest_one_line_px; size -= 0.25) {
      sets = at_size(size);
      const bool one_line = std::ranges::all_of(sets, [&](const SetLabel& one) {
        return words_width(ruler_, one.label->name, one.name) <= one.room_px;
      });
      if (one_line && height_of(sets) <= box_.height_px) {
        return sets;
      }
    }
    for (double size = smallest_one_line_px + 1; size > 4; size -= 0.25) {
      sets = at_size(size);
      if (height_of(sets) <= box_.height_px) {
        break;
      }
    }
    return sets;
  }

private:
  [[nodiscard]] std::vector<SetLabel> at_size(double size_px) const {
    std::vector<SetLabel> sets;
    for (const ColumnLabel& label : labels_) {
      SetLabel one;
      one.label = &label;
      one.name = {size_px, label.strong ? FontWeight::bold : FontWeight::regular, ink::text,
                  line_step};
      one.figure = {size_px, label.measured ? FontWeight::bold : FontWeight::regular,
                    label.measured || label.strong ? ink::text : ink::quiet_text, line_step, true};
      one.figure_width_px =
          label.figure.empty() ? 0 : words_width(ruler_, label.figure, one.figure) + figure_gap_px;
      one.room_px = box_.width_px - leader_px - one.figure_width_px;
      while (one.name.size_px > 4 && !words_fit(ruler_, label.name, one.name, one.room_px)) {
        one.name.size_px -= 0.25;
      }
      one.height_px = std::max(words_height(ruler_, label.name, one.name, one.room_px),
                               words_height(ruler_, label.figure, one.figure, 0)) +
                      1;
      sets.push_back(one);
    }
    return sets;
  }

  [[nodiscard]] static double height_of(const std::vector<SetLabel>& sets) {
    double all = 0;
    for (const SetLabel& one : sets) {
      all += one.height_px;
    }
    return all;
  }

  const std::vector<ColumnLabel>& labels_;
  const Box& box_;
  const TextRuler& ruler_;
};

/// By rising y, pushed apart by no more than needed and kept within the box.
void spread(std::vector<SetLabel>& sets, const Box& box) {
  double least = box.y_px;
  for (SetLabel& one : sets) {
    one.y_px = std::max(one.label->at_px, least + one.height_px / 2);
    least = one.y_px + one.height_px / 2;
  }
  double most = box.bottom_px();
  for (auto one = sets.rbegin(); one != sets.rend(); ++one) {
    one->y_px = std::min(one->y_px, most - one->height_px / 2);
    most = one->y_px - one->height_px / 2;
  }
}

} // namespace

void draw_column_labels(Drawing2d& drawing, std::vector<ColumnLabel> labels, const Box& box,
                        const TextRuler& ruler) {
  std::ranges::sort(labels, {}, &ColumnLabel::at_px);
  std::vector<SetLabel> sets = Setter(labels, box, ruler).set();
  spread(sets, box);
  const double end = box.right_px() - leader_px;
  for (const SetLabel& one : sets) {
    const ColumnLabel& label = *one.label;
    put_level(drawing, ruler, label.figure, one.figure, end, one.y_px, TextAlign::right);
    const double high = words_height(ruler, label.name, one.name, one.room_px);
    put_words(drawing, ruler, label.name, one.name, end - one.figure_width_px,
              one.y_px - high / 2 + 0.09 * one.name.size_px, one.room_px, TextAlign::right);
    // A leader, bent where the label had to give way.
    const Stroke thin{label.strong ? ink::path : ink::quiet_line, label.strong ? 1.5 : 0.9, 0, 0};
    drawing.add(PolylineShape{{{end + 4, one.y_px},
                               {end + 8, one.y_px},
                               {box.right_px() - 4, label.at_px},
                               {label.to_px, label.at_px}},
                              false,
                              thin});
  }
}

} // namespace lugline::page
