#include "viewer/app/page_artist.h"

#include "viewer/draw/look.h"
#include "viewer/draw/view.h"

#include <epoxy/gl.h>

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

/// A box of the page as a viewport; y counts from the framebuffer's foot.
Viewport viewport_of(const Box& box, const PageInput& page, const PageLayout& layout) {
  const auto at = [&](double px) { return static_cast<int>(std::lround(px * layout.scale)); };
  Viewport viewport;
  viewport.x_px = at(box.x_px);
  viewport.width_px = std::max(at(box.right_px()) - viewport.x_px, 1);
  viewport.height_px = std::max(at(box.bottom_px()) - at(box.y_px), 1);
  viewport.y_px = static_cast<int>(std::lround(page.height_px)) - at(box.bottom_px());
  return viewport;
}

Viewport whole_of(const PageInput& page) {
  return {0, 0, std::max(static_cast<int>(std::lround(page.width_px)), 1),
          std::max(static_cast<int>(std::lround(page.height_px)), 1)};
}

Colour colour_from(const glm::vec3& colour) {
  const auto channel = [](float value) {
    return static_cast<std::uint8_t>(std::lround(std::clamp(value, 0.0f, 1.0f) * 255));
  };
  return {channel(colour.r), channel(colour.g), channel(colour.b), 255};
}

std::optional<AnchorSort> sort_of(AnchorKind kind) {
  switch (kind) {
  case AnchorKind::key:
    return AnchorSort::key;
  case AnchorKind::up_arrow:
    return AnchorSort::up_arrow;
  case AnchorKind::label:
    return AnchorSort::label;
  case AnchorKind::turn_arc:
    return AnchorSort::turn_arc;
  case AnchorKind::fall_from:
  case AnchorKind::fall_to:
    break;
  }
  return std::nullopt;
}

/// Where the part in hand is on the page, by the corners of its bounds.
std::optional<Box> hand_of(const Picture& picture, const PageLayout& layout,
                           const PageInput& page) {
  const Viewport viewport = viewport_of(layout.picture, page, layout);
  std::vector<glm::dvec3> reach;
  for (const PictureItem& item : picture.items) {
    if (item.mesh != nullptr) {
      const auto corners = corners_of(bounds_of(*item.mesh), item.pose, item.stretch);
      reach.insert(reach.end(), corners.begin(), corners.end());
    }
  }
  const View view = view_of(picture.camera, viewport.width_px, viewport.height_px, reach);
  std::optional<Box> hand;
  for (const PictureItem& item : picture.items) {
    if (item.role != Role::in_hand || item.mesh == nullptr) {
      continue;
    }
    for (const glm::dvec3& corner : corners_of(bounds_of(*item.mesh), item.pose, item.stretch)) {
      const auto at = view.on_screen(corner);
      if (!at) {
        continue;
      }
      const double x = layout.picture.x_px + at->x / layout.scale;
      const double y = layout.picture.y_px + at->y / layout.scale;
      if (!hand) {
        hand = Box{x, y, 0, 0};
      }
      const double right = std::max(hand->right_px(), x);
      const double bottom = std::max(hand->bottom_px(), y);
      hand->x_px = std::min(hand->x_px, x);
      hand->y_px = std::min(hand->y_px, y);
      hand->width_px = right - hand->x_px;
      hand->height_px = bottom - hand->y_px;
    }
  }
  return hand;
}

PageMarks marks_of(const std::vector<ScreenAnchor>& anchors, const Picture& picture,
                   const PageLayout& layout, const PageInput& page) {
  PageMarks marks;
  // Only labels have to keep off the part in hand.
  if (std::ranges::any_of(anchors, [](const ScreenAnchor& anchor) {
        return anchor.kind == AnchorKind::label || anchor.kind == AnchorKind::turn_arc;
      })) {
    marks.hand = hand_of(picture, layout, page);
  }
  for (const ScreenAnchor& anchor : anchors) {
    const auto sort = sort_of(anchor.kind);
    // What the arrow says is told beside the words, wherever the arrow is.
    if (!sort || (!anchor.on_screen && *sort != AnchorSort::up_arrow)) {
      continue;
    }
    PageAnchor mark;
    mark.sort = *sort;
    mark.words = anchor.words;
    mark.number = anchor.number;
    mark.colour = colour_from(pair_colour(anchor.number));
    mark.at = {layout.picture.x_px + anchor.x_px / layout.scale,
               layout.picture.y_px + anchor.y_px / layout.scale};
    mark.visible = anchor.visible;
    marks.anchors.push_back(mark);
  }
  return marks;
}

} // namespace

PageArtist::PageArtist(std::shared_ptr<Fonts> fonts, Renderer renderer, Painter painter)
    : fonts_(std::move(fonts)), renderer_(std::move(renderer)), painter_(std::move(painter)) {}

Outcome<PageArtist> PageArtist::create() {
  auto fonts = Fonts::load();
  if (!fonts) {
    return Problem{fonts.problem()};
  }
  auto renderer = Renderer::create();
  if (!renderer) {
    return Problem{renderer.problem()};
  }
  auto painter = Painter::create(fonts.value());
  if (!painter) {
    return Problem{painter.problem()};
  }
  return PageArtist(fonts.value(), std::move(renderer).value(), std::move(painter).value());
}

void PageArtist::draw_paper(unsigned framebuffer, const PageInput& page, const PageLayout& layout) {
  // As high as the picture and centred on it, so that paper and picture are one.
  const double middle = layout.picture.x_px + layout.picture.width_px / 2;
  const double reach = std::max(middle, layout.width_px - middle);
  const Box box{middle - reach, layout.picture.y_px, 2 * reach, layout.picture.height_px};
  const Viewport sheet = viewport_of(box, page, layout);
  const Viewport whole = whole_of(page);
  const bool same = paper_.target != nullptr && paper_.width_px == whole.width_px &&
                    paper_.height_px == whole.height_px && paper_.print_look == page.print_look &&
                    paper_.sheet.x_px == sheet.x_px && paper_.sheet.y_px == sheet.y_px &&
                    paper_.sheet.height_px == sheet.height_px;
  if (!same) {
    paper_ = {sheet, whole.width_px, whole.height_px, page.print_look,
              std::make_unique<OffscreenTarget>(whole.width_px, whole.height_px)};
    Picture bare;
    bare.print_look = page.print_look;
    renderer_.draw_into(paper_.target->framebuffer(), sheet, bare);
    Drawing2d foot;
    foot.add(plain_rect({0, box.bottom_px(), layout.width_px, layout.height_px - box.bottom_px()},
                        page.print_look ? ink::white : colour_from(Inks{}.paper_bottom)));
    paint(paper_.target->framebuffer(), page, layout, foot);
  }
  glBindFramebuffer(GL_READ_FRAMEBUFFER, paper_.target->framebuffer());
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, framebuffer);
  glBlitFramebuffer(0, 0, whole.width_px, whole.height_px, 0, 0, whole.width_px, whole.height_px,
                    GL_COLOR_BUFFER_BIT, GL_NEAREST);
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
}

void PageArtist::draw(unsigned framebuffer, const PageInput& page, const PageLayout& layout,
                      const Picture& picture, const DrawOptions& options) {
  draw_paper(framebuffer, page, layout);
  renderer_.draw_into(framebuffer, viewport_of(layout.picture, page, layout), picture, options);
  const PageMarks marks = marks_of(renderer_.anchors(), picture, layout, page);
  paint(framebuffer, page, layout, draw_page(page, layout, marks, *fonts_));
}

void PageArtist::paint(unsigned framebuffer, const PageInput& page, const PageLayout& layout,
                       const Drawing2d& drawing) {
  painter_.paint(drawing, framebuffer, whole_of(page), layout.scale);
}

std::uint32_t PageArtist::pick(const PageLayout& layout, double x_px, double y_px) const {
  const double x = x_px - std::lround(layout.picture.x_px * layout.scale);
  const double y = y_px - std::lround(layout.picture.y_px * layout.scale);
  if (x < 0 || y < 0 || x >= layout.picture.width_px * layout.scale ||
      y >= layout.picture.height_px * layout.scale) {
    return 0;
  }
  return renderer_.pick(static_cast<int>(x), static_cast<int>(y));
}

double aspect_of(const PageLayout& layout) {
  return layout.picture.width_px / std::max(layout.picture.height_px, 1.0);
}

Image page_image(PageArtist& artist, const Stage& stage, const ViewState& view, int width_px,
                 int height_px, double scale) {
  const PageInput page = page_of(stage, view, width_px, height_px, scale);
  const PageLayout layout = lay_out(page);
  DrawOptions options;
  options.scale = layout.scale;
  const OffscreenTarget target(width_px, height_px);
  artist.draw(target.framebuffer(), page, layout, stage.picture(view, aspect_of(layout)), options);
  return target.read();
}

Image figures_image(PageArtist& artist, const Stage& stage, const ViewState& view, FiguresKind kind,
                    int width_px, int height_px, double scale) {
  PageInput page = without_step(page_of(stage, view, width_px, height_px, scale));
  page.rule.clear();
  const PageLayout layout = lay_out(page);
  const OffscreenTarget target(width_px, height_px);
  artist.draw_paper(target.framebuffer(), page, layout);
  artist.paint(target.framebuffer(), page, layout,
               figures_alone(figures_page(stage, view, kind), page, layout, artist.fonts()));
  return target.read();
}

} // namespace lugline
