// The words at the left: what to do, how one knows, who can be hurt, where it stands.
#include "viewer/stage/page_parts.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace lugline::page {

namespace {

constexpr double least_tray_px = 104;
constexpr double most_tray_px = 200;
constexpr std::size_t most_title_lines = 4;

/// How large the words are set, and what is left out for want of room.
struct Setting {
  double title = 1;
  double body = 1;
  int left_out = 0; ///< 1: the tray; 2: also the hint and all problems but the first;
                    ///< 3: also what the wrong way would do
};

/// "Now standing on friction 1" in what is said of it and what it is.
struct Standing {
  std::string before;
  std::string what;
};

Standing standing_of(const std::string& words) {
  constexpr std::array<std::string_view, 3> beginnings = {"Now standing on ", "Standing on ",
                                                          "Seated on "};
  for (const std::string_view beginning : beginnings) {
    if (words.starts_with(beginning)) {
      return {std::string(beginning.substr(0, beginning.size() - 1)),
              words.substr(beginning.size())};
    }
  }
  return {{}, words};
}

std::string joined(const std::vector<std::string>& parts, const std::string& between) {
  std::string all;
  for (const std::string& part : parts) {
    if (!part.empty()) {
      all += (all.empty() ? "" : between) + part;
    }
  }
  return all;
}

class Flow {
public:
  Flow(const PageInput& page, const std::string& up, const Box& box, const Setting& setting,
       const TextRuler& ruler)
      : page_(page), words_(page.words), up_(up), box_(box), setting_(setting), ruler_(ruler),
        roomy_(box.width_px >= 380), grown_(std::clamp(box.width_px / 410, 1.0, 1.25)),
        at_px_(box.y_px) {}

  void step() {
    line(joined({words_.chapter, words_.count}, "  ·  "),
         {size(13.5), FontWeight::medium, ink::quiet_text}, 10);
    title();
    barred(words_.know, {size(roomy_ ? 18.5 : 17), FontWeight::regular, ink::text}, know_bar, 0);
    which_way_up();
    caution();
  }

  void standing() {
    if (!words_.reading.empty()) {
      space(6);
      line(words_.reading, {size(roomy_ ? 22 : 18), FontWeight::semibold, ink::text, 1.3, true}, 8);
    }
    const Standing stands = standing_of(words_.stands);
    if (!stands.what.empty()) {
      space(roomy_ ? 14 : 6);
      const double top_px = at_px_;
      line(stands.before, {size(14.5), FontWeight::regular, ink::quiet_text}, 2, indent());
      line(stands.what, {size(roomy_ ? 25 : 21), FontWeight::bold, ink::text, 1.2}, 4, indent());
      line(words_.stands_more, {size(15), FontWeight::regular, ink::text, 1.36, true}, 8, indent());
      bar(top_px, at_px_ - 8 * setting_.body, words_.stands_wrong ? ink::path : ink::line, 0);
    }
    if (!words_.wrong_way.empty() && setting_.left_out < 3) {
      space(4);
      barred(words_.wrong_way, {size(15), FontWeight::regular, ink::quiet_text}, ink::quiet_line,
             5);
    }
    std::size_t told = 0;
    for (const std::string& problem : words_.problems) {
      if (setting_.left_out < 2 || told == 0) {
        barred(problem, {size(15), FontWeight::medium, wrong}, wrong, 0);
      }
      ++told;
    }
  }

  void rest(bool with_column, bool with_tray) {
    // A reading that says the same has been told already.
    if (with_column && words_.reading.find(page_.column->number) == std::string::npos) {
      column(*page_.column);
    }
    if (setting_.left_out < 2) {
      line(page_.hint, {size(14), FontWeight::regular, ink::quiet_text}, 8);
    }
    if (with_tray && setting_.left_out < 1) {
      waiting();
    }
    for (const PageNote& note : page_.notes) {
      barred(note.words, {size(14), FontWeight::medium, note.wrong ? wrong : ink::text},
             note.wrong ? wrong : ink::line, 0);
    }
  }

  [[nodiscard]] bool fits() const { return wide_enough_ && at_px_ <= box_.bottom_px() + 0.5; }
  [[nodiscard]] double bottom_px() const { return at_px_; }
  Drawing2d take() { return std::move(drawing_); }

private:
  [[nodiscard]] double size(double px) const { return px * setting_.body * grown_; }
  [[nodiscard]] double indent() const { return 16 * setting_.body; }
  void space(double px) { at_px_ += px * setting_.body * grown_; }

  void line(const std::string& words, const Lettering& type, double after_px, double in_px = 0) {
    if (words.empty()) {
      return;
    }
    const double width = box_.width_px - in_px;
    wide_enough_ = wide_enough_ && words_fit(ruler_, words, type, width);
    at_px_ = put_words(drawing_, ruler_, words, type, box_.x_px + in_px, at_px_, width);
    space(after_px);
  }

  /// A long sentence is set smaller before it fills the page.
  void title() {
    Lettering type{std::clamp(0.0854 * box_.width_px, 21.0, 42.0) * setting_.title,
                   FontWeight::bold, ink::text, 1.17};
    const auto lines = [&] {
      TextShape text;
      text.words = words_.to_do;
      text.size_px = type.size_px;
      text.weight = type.weight;
      text.wrap_px = box_.width_px;
      return lines_of(text, ruler_).size();
    };
    for (int i = 0; i < 4 && lines() > most_title_lines; ++i) {
      type.size_px *= 0.92;
    }
    line(words_.to_do, type, 16);
  }

  void bar(double top_px, double bottom_px, Colour colour, double dash_px) {
    const double x = box_.x_px + 2;
    drawing_.add(lugline::line(x, top_px, x, bottom_px,
                               {colour, dash_px > 0 ? 1.5 : 4.0, dash_px, dash_px}));
  }

  void barred(const std::string& words, const Lettering& type, Colour colour, double dash_px) {
    if (words.empty()) {
      return;
    }
    const double top_px = at_px_;
    line(words, type, 0, indent());
    bar(top_px, at_px_, colour, dash_px);
    space(14);
  }

  /// Beside it a small arrow like the one off the part.
  void which_way_up() {
    if (up_.empty()) {
      return;
    }
    const Lettering type{size(roomy_ ? 17 : 16), FontWeight::semibold, ink::path};
    const double top_px = at_px_;
    line(up_, type, 0, indent());
    const double x = box_.x_px + 4;
    const double high = 0.95 * type.size_px;
    const double wide = 0.30 * type.size_px;
    const double y = top_px + 0.15 * type.size_px;
    drawing_.add(
        lugline::line(x, y + high, x, y + 0.4 * high, {ink::path, 0.16 * type.size_px, 0, 0}));
    drawing_.add(PolygonShape{
        {{x - wide, y + 0.5 * high}, {x + wide, y + 0.5 * high}, {x, y}}, ink::path, std::nullopt});
    space(14);
  }

  void caution() {
    if (words_.caution.empty()) {
      return;
    }
    space(4);
    const double pad = 14 * setting_.body;
    const double top_px = at_px_;
    const std::size_t under = drawing_.shapes.size();
    drawing_.add(RectShape{});
    at_px_ += pad;
    const double width = box_.width_px - 2 * pad;
    const Lettering strong{size(16.5), FontWeight::semibold, ink::text};
    const Lettering plain{size(13.5), FontWeight::regular, ink::text};
    wide_enough_ = wide_enough_ && words_fit(ruler_, words_.caution, strong, width) &&
                   words_fit(ruler_, words_.manual, plain, width);
    at_px_ = put_words(drawing_, ruler_, words_.caution, strong, box_.x_px + pad, at_px_, width);
    if (!words_.manual.empty()) {
      space(5);
      at_px_ = put_words(drawing_, ruler_, words_.manual, plain, box_.x_px + pad, at_px_, width);
    }
    at_px_ += pad - 3 * setting_.body;
    drawing_.shapes[under] = plain_rect({box_.x_px + 1, top_px, box_.width_px - 2, at_px_ - top_px},
                                        ink::caution, Stroke{ink::line, 2, 0, 0});
    space(14);
  }

  /// The column where there is no room to draw it: its number and its words.
  void column(const Column& column) {
    space(6);
    const Lettering number{size(30), FontWeight::bold, ink::text, 1.2, true};
    const Lettering beside{size(13.5), FontWeight::regular, ink::text, 1.3, true};
    line(column.name, {size(13.5), FontWeight::semibold, ink::text}, 2);
    const double top_px = at_px_;
    const std::string figure = column.number + " " + column.number_unit;
    const double figure_width = words_width(ruler_, figure, number);
    const double x = box_.x_px + figure_width + 14 * setting_.body;
    const double width = box_.right_px() - x;
    const std::string more =
        joined({column.verdict_words, column.other_unit, column.limits_words}, ", ");
    wide_enough_ = wide_enough_ && words_fit(ruler_, more, beside, width);
    const double bottom_px = put_words(drawing_, ruler_, figure, number, box_.x_px, top_px, 0);
    at_px_ = std::max(bottom_px, put_words(drawing_, ruler_, more, beside, x, top_px + 2, width));
    space(10);
  }

  void waiting() {
    std::vector<std::string> parts;
    for (const TrayPart& part : page_.tray) {
      parts.push_back(part.words);
    }
    const std::string all = joined(parts, "; ");
    line(all.empty() ? all : "Waiting: " + all, {size(14), FontWeight::regular, ink::quiet_text},
         8);
  }

  const PageInput& page_;
  const Words& words_;
  const std::string& up_;
  const Box& box_;
  const Setting& setting_;
  const TextRuler& ruler_;
  bool roomy_;
  double grown_; ///< on a wide page
  bool wide_enough_ = true;
  double at_px_;
  Drawing2d drawing_;
};

/// From the largest to the smallest; the title gives way first.
std::vector<Setting> settings() {
  std::vector<Setting> all;
  for (double body = 1; body > 0.21; body -= body > 0.5 ? 0.06 : 0.03) {
    for (const double title : {1.0, 0.86, 0.74}) {
      const int most = body > 0.86 ? 0 : body > 0.7 ? 1 : body > 0.5 ? 2 : 3;
      for (int left_out = 0; left_out <= most; ++left_out) {
        all.push_back({title * std::min(1.0, body + 0.06), body, left_out});
      }
    }
  }
  return all;
}

} // namespace

namespace {

/// The largest setting that fits; `bottom_px` is where it ends.
Drawing2d set_words(const PageInput& page, const std::string& up, const Box& box, bool with_column,
                    bool with_tray, const TextRuler& ruler, double& bottom_px) {
  Drawing2d words;
  for (const Setting& setting : settings()) {
    Flow flow(page, up, box, setting, ruler);
    flow.step();
    flow.standing();
    flow.rest(with_column, with_tray);
    const bool fits = flow.fits();
    bottom_px = flow.bottom_px();
    words = flow.take();
    if (fits) {
      break;
    }
  }
  return words;
}

} // namespace

void draw_words(Drawing2d& drawing, const PageInput& page, const std::string& up, const Box& box,
                bool with_column, const TextRuler& ruler) {
  double bottom_px = 0;
  Drawing2d words = set_words(page, up, box, with_column, false, ruler, bottom_px);
  const double room_px = box.bottom_px() - bottom_px - 2 * gap_px;
  if (!page.tray.empty() && room_px >= least_tray_px) {
    const double height = std::min(room_px, most_tray_px);
    draw_tray(drawing, page.tray, {box.x_px, box.bottom_px() - height, box.width_px, height},
              ruler);
  } else if (!page.tray.empty()) {
    words = set_words(page, up, box, with_column, true, ruler, bottom_px);
  }
  for (FlatShape& shape : words.shapes) {
    drawing.add(std::move(shape));
  }
}

} // namespace lugline::page
