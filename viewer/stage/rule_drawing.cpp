// The steel rule at the foot: a tick for each step, chapters named, the pointer.
#include "viewer/stage/page_parts.h"

#include <algorithm>

namespace lugline::page {

namespace {

constexpr double inset_px = 12;
constexpr double least_apart_px = 3;

struct Chapter {
  std::string name;
  std::size_t from = 0;
  double x_px = 0;
  double room_px = 0; ///< until the next one
};

std::vector<Chapter> chapters_of(const PageInput& page, const Box& box) {
  std::vector<Chapter> chapters;
  for (std::size_t i = 0; i < page.rule.size(); ++i) {
    if (page.rule[i].chapter_starts) {
      const double x = tick_x(box, page.rule.size(), static_cast<double>(i));
      if (!chapters.empty()) {
        chapters.back().room_px = x - chapters.back().x_px;
      }
      chapters.push_back({page.rule[i].chapter, i, x, 0});
    }
  }
  if (!chapters.empty()) {
    chapters.back().room_px = box.right_px() - chapters.back().x_px;
  }
  return chapters;
}

/// A name in one line or two, as large as its room lets it be; nothing where
/// even the smallest is too wide.
std::optional<Lettering> type_for(const std::string& name, FontWeight weight, double room_px,
                                  double height_px, const TextRuler& ruler) {
  for (double size = 13; size >= 10; size -= 0.5) {
    const Lettering type{size, weight, ink::text, 1.12};
    if (words_fit(ruler, name, type, room_px) &&
        words_height(ruler, name, type, room_px) <= height_px) {
      return type;
    }
  }
  return std::nullopt;
}

/// Each chapter is named in its own room; the present one always.
void name_chapters(Drawing2d& drawing, const std::vector<Chapter>& chapters, const PageInput& page,
                   const Box& box, const TextRuler& ruler) {
  std::size_t here = 0;
  for (std::size_t i = 0; i < chapters.size(); ++i) {
    here = chapters[i].from <= page.step ? i : here;
  }
  const bool thin = box.height_px < 32;
  constexpr double pad = 4;
  const double top = box.y_px + (thin ? 6 : 12);
  const double height = box.bottom_px() - top - 1;
  Box taken; // by the present chapter's name: the others keep off it
  if (!chapters.empty()) {
    const Chapter& chapter = chapters[here];
    const double own_room = chapter.room_px - 2 * pad;
    const auto own = type_for(chapter.name, FontWeight::bold, own_room, height, ruler);
    Lettering type = own.value_or(Lettering{thin ? 11.0 : 12.5, FontWeight::bold, ink::text, 1.12});
    const double most = box.width_px - 2 * pad;
    while (!own && type.size_px > 6 && words_width(ruler, chapter.name, type) > most) {
      type.size_px -= 0.5;
    }
    const double room = own ? own_room : 0;
    const double width = words_width(ruler, chapter.name, type, room);
    const double high = words_height(ruler, chapter.name, type, room);
    const double x = std::clamp(chapter.x_px + pad, box.x_px + pad,
                                std::max(box.right_px() - pad - width, box.x_px + pad));
    taken = {x - pad, box.y_px, width + 2 * pad, box.height_px};
    drawing.add(plain_rect({x - 3, top, width + 6, height - 1}, rule_ground));
    put_words(drawing, ruler, chapter.name, type, x, top + (height - high) / 2, room);
  }
  for (std::size_t i = 0; i < chapters.size() && !thin; ++i) {
    const Chapter& chapter = chapters[i];
    const double room = chapter.room_px - 2 * pad;
    const auto type = type_for(chapter.name, FontWeight::regular, room, height, ruler);
    if (i == here || !type) {
      continue;
    }
    const double high = words_height(ruler, chapter.name, *type, room);
    const double width = words_width(ruler, chapter.name, *type, room);
    if (!overlap({chapter.x_px + pad, box.y_px, width, box.height_px}, taken)) {
      put_words(drawing, ruler, chapter.name, *type, chapter.x_px + pad, top + (height - high) / 2,
                room);
    }
  }
}

} // namespace

double tick_x(const Box& rule, std::size_t steps, double step) {
  const double along = steps > 1 ? step / static_cast<double>(steps - 1) : 0;
  return rule.x_px + inset_px + along * (rule.width_px - 2 * inset_px);
}

void draw_rule(Drawing2d& drawing, const PageInput& page, const Box& box, const TextRuler& ruler) {
  drawing.add(plain_rect(box, rule_ground, Stroke{ink::line, 1.25, 0, 0}));
  const std::size_t steps = page.rule.size();
  if (steps == 0) {
    return;
  }
  const double apart = steps > 1 ? tick_x(box, steps, 1) - tick_x(box, steps, 0) : box.width_px;
  const double long_px = box.height_px * (box.height_px < 32 ? 0.24 : 0.40);
  for (std::size_t i = 0; i < steps; ++i) {
    const RuleTick& tick = page.rule[i];
    const double x = tick_x(box, steps, static_cast<double>(i));
    if (!tick.chapter_starts && !tick.fails && apart < least_apart_px) {
      continue;
    }
    const double length = tick.chapter_starts ? 0.62 * box.height_px : long_px * 0.55;
    drawing.add(line(x, box.y_px, x, box.y_px + length,
                     {tick.fails ? wrong : ink::line, tick.chapter_starts ? 1.75 : 1, 0, 0}));
    if (tick.fails) {
      drawing.add(CircleShape{{x, box.y_px + length + 4}, 3, wrong, std::nullopt});
    }
  }
  name_chapters(drawing, chapters_of(page, box), page, box, ruler);

  // How far the work has come, along the rule's edge; and where it stands.
  const double here = tick_x(box, steps, static_cast<double>(page.step));
  const double next =
      page.step + 1 < steps ? tick_x(box, steps, static_cast<double>(page.step + 1)) : here;
  const double x = here + (next - here) * 0.5 * std::clamp(page.moment, 0.0, 1.0);
  drawing.add(line(box.x_px, box.y_px, x, box.y_px, {ink::path, 3, 0, 0}));
  const double half = box.height_px < 32 ? 7 : 9;
  const double high = box.height_px < 32 ? 8 : 12;
  drawing.add(PolygonShape{
      {{x - half, box.y_px - high - 1}, {x + half, box.y_px - high - 1}, {x, box.y_px - 1}},
      ink::path,
      std::nullopt});
}

} // namespace lugline::page
