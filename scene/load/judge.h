// Judgements on a unit as a whole: what its two files say about each other.
//
// Whether the sequence works on the bench (each part reaches its seat, in the
// right order) is not judged here but by simulating it, later.
#pragma once

#include "scene/load/draft.h"

#include <map>
#include <string>
#include <vector>

namespace lugline {

/// The components by id. A line whose model is refused still has its ids here,
/// so that one missing file is one complaint.
class Known {
public:
  Known(const UnitDraft& unit, const std::vector<UnitComponent>& components);

  [[nodiscard]] bool has(const std::string& id) const { return pieces_.contains(id); }
  /// Null where there is none, or where its line was refused.
  [[nodiscard]] const UnitComponent* made(const std::string& id) const;
  /// The pieces of a line of several; empty for any other id.
  [[nodiscard]] std::vector<std::string> pieces_of_line(const std::string& id) const;
  [[nodiscard]] const std::vector<std::string>& ids() const { return ids_; }

private:
  std::map<std::string, const UnitComponent*> pieces_;
  std::map<std::string, std::vector<std::string>> lines_;
  std::vector<std::string> ids_;
};

/// Ids that stand twice, and ids that name nothing. Either draft may be null
/// where its file could not be read; what needs it is then left out.
void judge_ids(const UnitDraft* unit, const SequenceDraft* sequence, const Known* known,
               Findings& findings);

/// Packs: plates listed twice, a ring that is none, selectives without options.
void judge_packs(const UnitDraft& unit, const Known& known, Findings& findings);

/// The gear train: members, teeth, elements and ranges that say something of each other that cannot
/// be. Whether a range drives is not judged here but by working the train, later.
void judge_drive(const UnitDraft& unit, const Known& known, Findings& findings);

/// Checks by air: the elements that they name, and that the unit states its air.
void judge_air_steps(const UnitDraft& unit, const SequenceDraft& sequence, Findings& findings);

/// Chains: figures that no part has, a thickness that counts twice, selectives without options.
void judge_chains(const UnitDraft& unit, const Known& known, Findings& findings);

/// Steps: seats, doubled parts, sub-builds, readings, hazards.
void judge_sequence(const UnitDraft& unit, const SequenceDraft& sequence, const Known& known,
                    Findings& findings);

} // namespace lugline
