#include "scene/load/load.h"

#include "scene/load/draft.h"
#include "scene/load/judge.h"
#include "scene/load/load_from.h"
#include "scene/load/models.h"

namespace lugline {

namespace {

std::optional<std::string> text_of_file(const FileSource& files, const char* name,
                                        Findings& findings) {
  Outcome<std::string> text = files.bytes(name, largest_text_bytes);
  if (!text) {
    findings.complain({name, 0, 0}, text.problem(),
                      "a unit is a folder with unit.toml and sequence.toml");
    return std::nullopt;
  }
  return std::move(text).value();
}

template <class T>
std::vector<T> values_of(std::vector<Drafted<T>> drafted) {
  std::vector<T> values;
  values.reserve(drafted.size());
  for (Drafted<T>& one : drafted) {
    values.push_back(std::move(one.value));
  }
  return values;
}

/// What a step may leave out because it follows from the rest.
void complete(Unit& unit) {
  for (Step& step : unit.steps) {
    if (step.kind == StepKind::bring && step.part.empty()) {
      step.part = unit.place(step.brings)->base;
    }
  }
}

std::shared_ptr<const Unit> built(UnitDraft draft, SequenceDraft sequence,
                                  std::vector<UnitComponent> components,
                                  const std::string& folder) {
  auto unit = std::make_shared<Unit>();
  unit->folder = folder;
  unit->name = std::move(draft.name);
  unit->label = std::move(draft.label);
  unit->notice = std::move(draft.notice);
  unit->invented = draft.invented;
  unit->components = std::move(components);
  unit->packs = values_of(std::move(draft.packs));
  unit->plays = values_of(std::move(draft.plays));
  if (draft.drive) {
    unit->drive = draft.drive->drive();
  }
  for (ChainDraft& chain : draft.chains) {
    unit->chains.push_back(std::move(chain.value));
  }
  unit->places = values_of(std::move(sequence.places));
  unit->steps = values_of(std::move(sequence.steps));
  complete(*unit);
  return unit;
}

} // namespace

LoadReport load_unit_from(const FileSource& files, const std::string& folder) {
  Findings findings;
  std::optional<UnitDraft> unit;
  std::optional<SequenceDraft> sequence;
  if (const auto text = text_of_file(files, unit_file, findings)) {
    unit = read_unit_toml(*text, findings);
  }
  if (const auto text = text_of_file(files, sequence_file, findings)) {
    sequence = read_sequence_toml(*text, findings);
  }
  std::vector<UnitComponent> components;
  std::optional<Known> known;
  if (unit) {
    components = make_components(unit->lines, files, findings);
    known.emplace(*unit, components);
    judge_packs(*unit, *known, findings);
    judge_chains(*unit, *known, findings);
    judge_drive(*unit, *known, findings);
  }
  judge_ids(unit ? &*unit : nullptr, sequence ? &*sequence : nullptr, known ? &*known : nullptr,
            findings);
  if (unit && sequence) {
    judge_sequence(*unit, *sequence, *known, findings);
    judge_air_steps(*unit, *sequence, findings);
  }
  LoadReport report;
  report.complaints = findings.complaints();
  report.questions = findings.questions();
  if (findings.sound()) {
    report.unit = built(std::move(*unit), std::move(*sequence), std::move(components), folder);
  }
  return report;
}

LoadReport load_unit(const std::filesystem::path& folder) {
  const Outcome<std::filesystem::path> root = FolderSource::folder_at(folder);
  if (!root) {
    LoadReport report;
    report.complaints.push_back({folder.generic_string(), 0, 0, root.problem(),
                                 "a unit is a folder with unit.toml and sequence.toml"});
    return report;
  }
  return load_unit_from(FolderSource(root.value()), folder.generic_string());
}

} // namespace lugline
