// What is on the window: the page and the panels over it.
//
// The page is kept in a picture of its own and drawn anew only where something
// on it changed; a frame in which only a panel changed copies it. Needs the
// glass's OpenGL context.
#pragma once

#include "viewer/app/camera_ease.h"
#include "viewer/app/glass.h"
#include "viewer/app/pace.h"
#include "viewer/app/page_artist.h"
#include "viewer/app/pointer.h"
#include "viewer/app/sitting.h"
#include "viewer/panels/foot.h"
#include "viewer/stage/figures.h"

#include <memory>
#include <optional>
#include <string>

namespace lugline {

class Show {
public:
  static Outcome<std::unique_ptr<Show>> create(Glass& glass);

  /// One frame of everything; what the panels returned. opening: the unit is
  /// being read. rough: something moves, so less care for each frame.
  Outcome<Wishes> frame(const Sitting& sitting, const std::string& folder, bool opening, bool rough,
                        double now_s);
  /// The eye is on its way to the step's view.
  [[nodiscard]] bool easing(double now_s) const { return ease_.going(now_s); }

  /// What the mouse is over, of the last frame.
  [[nodiscard]] PointerScene scene(const Sitting& sitting, PointPx mouse) const;
  /// Gains weight of line from the next frame on; whether that is a change.
  bool hover(PointPx mouse);
  void hover_nothing() { hovered_ = 0; }
  /// What a press on the sheet of figures asks for; none where it is on nothing.
  [[nodiscard]] std::optional<Wish> figures_wish(PointPx mouse) const;

  /// What the window shows, as it was last drawn and before it is seen.
  [[nodiscard]] Image read_window() const;

  [[nodiscard]] const PageLayout& layout() const { return layout_; }
  [[nodiscard]] long pages_drawn() const { return pages_drawn_; }

private:
  /// Two frames that agree in this look the same.
  struct Drawn {
    std::string picture;
    Drawing2d flat;
    const Stage* stage = nullptr;
    std::uint32_t hovered = 0;
    double scale = 1;
    bool rough = false;
    friend bool operator==(const Drawn&, const Drawn&) = default;
  };

  Show(Glass& glass, PageArtist artist);
  void draw_page_anew(const PageInput& page, const Picture& picture, const Stage* stage,
                      bool rough);
  void work_out_figures(const Sitting& sitting);
  PageInput page_for(const Sitting& sitting, const PanelStyle& style, bool opening) const;
  [[nodiscard]] double scale_for(const Settings& settings) const;
  Wishes panels(const Sitting& sitting, const std::string& folder, const PanelStyle& style);

  Glass* glass_;
  PageArtist artist_;
  std::unique_ptr<OffscreenTarget> target_;
  int target_width_ = 0;
  int target_height_ = 0;
  PageInput page_;
  PageLayout layout_;
  Picture picture_;
  CameraEase ease_;
  Pace pace_;
  /// The open view of figures, worked out for these; worked out again only where they change.
  struct Asked {
    FiguresKind kind = FiguresKind::pack;
    FiguresChoice choice;
    LengthUnit unit = LengthUnit::millimetre;
    const Stage* stage = nullptr;
    std::size_t actions = 0;
    friend bool operator==(const Asked&, const Asked&) = default;
  };
  std::optional<Asked> asked_;
  FiguresPage figures_;
  DrawnFigures sheet_;
  std::optional<Drawn> drawn_; ///< what the target holds
  std::uint32_t hovered_ = 0;
  long pages_drawn_ = 0;
};

} // namespace lugline
