// Where on the sheet a page of figures puts its report and its pictures.
#include "viewer/stage/figures.h"

#include "viewer/stage/figure_setting.h"
#include "viewer/stage/page_parts.h"
#include "viewer/stage/report_drawing.h"

#include <algorithm>
#include <utility>

namespace lugline {

namespace {

void add_all(Drawing2d& to, Drawing2d&& from) {
  for (FlatShape& shape : from.shapes) {
    to.add(std::move(shape));
  }
}

ReportLook look_of(const FiguresPage& page) {
  ReportLook look;
  look.eyebrow = page.view;
  if (!page.about.empty()) {
    look.eyebrow += "  ·  " + page.about;
  }
  return look;
}

/// The head of a report alone: what is asked, and the answer in a sentence.
CalculationReport head_of(const CalculationReport& report) {
  CalculationReport head;
  head.title = report.title;
  head.verdict = report.verdict;
  head.verdict_words = report.verdict_words;
  head.cautions = report.cautions;
  return head;
}

/// What the report is there for, without how it was come by: that is a key away.
CalculationReport in_short(CalculationReport report) {
  report.inputs.clear();
  report.working.clear();
  report.notes.clear();
  report.sources.clear();
  return report;
}

class FiguresSetter {
public:
  FiguresSetter(const FiguresPage& page, const Box& sheet, LengthUnit unit, const TextRuler& ruler)
      : page_(page), sheet_(sheet), unit_(unit), ruler_(ruler) {}

  DrawnFigures set() {
    if (page_.report.verdict == ReportVerdict::refused && !page_.air) {
      report(page_.report, sheet_);
    } else if (page_.train && !page_.working) {
      train();
    } else if (page_.air) {
      air();
    } else if (page_.column && !(page_.working && page_.second)) {
      column();
    } else {
      reports(sheet_);
    }
    return std::move(drawn_);
  }

private:
  DrawnReport report(const CalculationReport& report, const Box& box, bool first = true) {
    ReportLook look = look_of(page_);
    if (!first) {
      look.eyebrow.clear();
    }
    DrawnReport set = draw_report(report, box, unit_, ruler_, look);
    add_all(drawn_.drawing, std::move(set.drawing));
    return set;
  }

  /// One, or two beside each other.
  void reports(const Box& box) {
    if (!page_.second) {
      report(page_.report, box);
      return;
    }
    const double gap = 44;
    Box left = box;
    left.width_px = (box.width_px - gap) * 0.52;
    const Box right{left.right_px() + gap, box.y_px, box.right_px() - left.right_px() - gap,
                    box.height_px};
    report(page_.report, left);
    report(*page_.second, right, false);
  }

  void train() {
    Box head = sheet_;
    head.height_px = std::min(0.30 * sheet_.height_px, 150.0);
    const CalculationReport said = head_of(page_.report);
    const DrawnReport set = report(said, head);
    const double top = set.used.bottom_px() + std::min(10.0, 0.02 * sheet_.height_px);
    const Box box{sheet_.x_px, top, sheet_.width_px, sheet_.bottom_px() - top};
    // Where there is room for it in type that can be read, the working stands beside the picture.
    Box picture = box;
    CalculationReport rest = page_.report;
    rest.verdict_words.clear();
    rest.cautions.clear();
    rest.scale.reset();
    ReportLook look;
    look.head = false;
    look.most_type = 0.9;
    look.most_columns = 2;
    const double x = box.x_px + 0.66 * box.width_px;
    DrawnReport working = draw_report(rest, {x + 30, top, box.right_px() - x - 30, box.height_px},
                                      unit_, ruler_, look);
    if (working.fits && working.left_out == 0 && working.type >= 0.72) {
      picture.width_px = x - box.x_px;
      add_all(drawn_.drawing, std::move(working.drawing));
    }
    DrawnTrain drawn = draw_train(*page_.train, picture, ruler_);
    add_all(drawn_.drawing, std::move(drawn.drawing));
    drawn_.places = std::move(drawn.places);
  }
  void air() {
    if (page_.working) {
      reports(sheet_);
      return;
    }
    const double gap = 40;
    Box left = sheet_;
    left.width_px = sheet_.width_px * 0.56;
    Box right{left.right_px() + gap, sheet_.y_px, sheet_.right_px() - left.right_px() - gap,
              sheet_.height_px};
    right.height_px = std::min(right.height_px, 1.4 * right.width_px);
    // Once a hold was timed, what it tells is the answer.
    const CalculationReport& answer = page_.second ? *page_.second : page_.report;
    DrawnReport full = draw_report(answer, left, unit_, ruler_, look_of(page_));
    if (full.fits && full.left_out == 0 && full.type >= 0.8) {
      add_all(drawn_.drawing, std::move(full.drawing));
    } else {
      report(in_short(answer), left);
    }
    add_all(drawn_.drawing, draw_air(*page_.air, right, ruler_));
  }
  void column() {
    const bool wide = sheet_.width_px >= 620 && sheet_.height_px >= 380;
    if (!wide) {
      reports(sheet_);
      return;
    }
    const double width = std::clamp(0.29 * sheet_.width_px, 250.0, 380.0);
    const Box box{sheet_.right_px() - width, sheet_.y_px, width, sheet_.height_px};
    page::draw_column(drawn_.drawing, *page_.column, box, unit_, true, ruler_);
    Box rest = sheet_;
    rest.width_px = sheet_.width_px - width - 40;
    // The column says the figure and shows its limits.
    ReportLook look = look_of(page_);
    look.answer = false;
    add_all(drawn_.drawing, draw_report(page_.report, rest, unit_, ruler_, look).drawing);
  }

  const FiguresPage& page_;
  const Box& sheet_;
  LengthUnit unit_;
  const TextRuler& ruler_;
  DrawnFigures drawn_;
};

} // namespace

Box figures_sheet(const PageLayout& layout, bool beside_panel) {
  const Box& words = layout.words;
  const double margin = words.x_px;
  const double left = beside_panel ? layout.picture.x_px + 2.5 * page::gap_px : margin;
  return {left, words.y_px, layout.width_px - margin - left, words.height_px};
}

PageInput without_step(PageInput page) {
  page.column.reset();
  page.tray.clear();
  page.notes.clear();
  page.hint.clear();
  page.covered = true;
  page.slider = false;
  return page;
}

DrawnFigures draw_figures(const FiguresPage& page, const Box& sheet, LengthUnit unit,
                          const TextRuler& ruler) {
  return FiguresSetter(page, sheet, unit, ruler).set();
}

Drawing2d figures_alone(const FiguresPage& figures, const PageInput& page, const PageLayout& layout,
                        const TextRuler& ruler) {
  Box sheet = figures_sheet(layout, false);
  // No rule of steps stands beneath it.
  sheet.height_px = layout.label.y_px - sheet.y_px;
  DrawnFigures drawn = draw_figures(figures, sheet, page.unit, ruler);
  const Lettering small{13, FontWeight::regular, ink::quiet_text, 1.3};
  put_level(drawn.drawing, ruler, page.words.label, small, layout.label.x_px,
            layout.label.y_px + layout.label.height_px / 2);
  return std::move(drawn.drawing);
}

} // namespace lugline
