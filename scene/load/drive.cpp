#include "scene/load/drive.h"

#include "scene/load/words.h"

namespace lugline {

namespace {

constexpr std::array<Word<PlanetaryKind>, 3> planetary_kind_table{{
    {PlanetaryKind::single_pinion, "single pinion"},
    {PlanetaryKind::double_pinion, "double pinion"},
    {PlanetaryKind::stepped_pinion, "stepped pinion"},
}};

constexpr std::array<Word<ElementKind>, 3> element_kind_table{{
    {ElementKind::clutch, "clutch"},
    {ElementKind::band, "band"},
    {ElementKind::one_way_clutch, "one-way clutch"},
}};

} // namespace

const DriveMember* Drive::member(const std::string& id) const {
  return with_id(members, id);
}

const DriveElement* Drive::element(const std::string& id) const {
  return with_id(elements, id);
}

const DriveRange* Drive::range(const std::string& id) const {
  return with_id(ranges, id);
}

std::string word_for(PlanetaryKind kind) {
  return word_in(planetary_kind_table, kind);
}
std::optional<PlanetaryKind> planetary_kind_from(const std::string& word) {
  return value_in<PlanetaryKind>(planetary_kind_table, word);
}
std::vector<std::string> planetary_kind_words() {
  return words_in(planetary_kind_table);
}

std::string word_for(ElementKind kind) {
  return word_in(element_kind_table, kind);
}
std::optional<ElementKind> element_kind_from(const std::string& word) {
  return value_in<ElementKind>(element_kind_table, word);
}
std::vector<std::string> element_kind_words() {
  return words_in(element_kind_table);
}

} // namespace lugline
