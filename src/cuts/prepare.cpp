// Names to entries, files to outlines and parts: all that is asked once, before a sample is cut.

#include <filesystem>
#include <numeric>

#include "cuts/grammar.hpp"
#include "cuts/prepared.hpp"
#include "cuts/words.hpp"

namespace portwright::cuts {

using base::Error;
using base::ErrorCode;
using geometry::Survey;
using geometry::Window;

namespace {

Side side_of(const std::string& word) {
  constexpr std::pair<std::string_view, Side> sides[] = {
      {"left", Side::left},       {"right", Side::right},   {"roof", Side::roof}, {"floor", Side::floor},
      {"exhaust", Side::exhaust}, {"intake", Side::intake}, {"side", Side::side}};
  for (const auto& [name, side] : sides) {
    if (name == word) return side;
  }
  return Side::none;
}

Part part_of(const std::string& word) {
  constexpr std::pair<std::string_view, Part> parts[] = {{"piston", Part::piston},
                                                         {"cylinder", Part::cylinder},
                                                         {"reed", Part::reed},
                                                         {"carburettor", Part::carburettor},
                                                         {"muffler", Part::muffler}};
  for (const auto& [name, part] : parts) {
    if (name == word) return part;
  }
  return Part::none;
}

geometry::OctaneScale scale_of(const Cut& cut) {
  using geometry::OctaneScale;
  if (cut.act != Act::octane) return OctaneScale::unknown;
  if (cut.part == "pump") return OctaneScale::pump;
  return cut.part == "motor" ? OctaneScale::motor : OctaneScale::research;
}

class Preparer {
 public:
  Preparer(const Survey& survey, const std::string& folder)
      : survey_(survey), folder_(folder), stock_(geometry::resolve(survey)) {
    for (const geometry::PortSlots& port : survey.ports)
      outlines_.push_back(port.traced.empty() ? Window() : port.traced.moved_down(-port.traced.roof()));
  }

  void add(const Cut& cut, std::size_t number) {
    cut_ = &cut;
    path_ = "cuts." + std::to_string(number);
    Step step;
    step.act = cut.act;
    step.amount = cut.act == Act::outlets ? std::accumulate(cut.amounts.begin(), cut.amounts.end(), 0.0) : cut.amount;
    step.amounts = cut.amounts;
    step.width = cut.width;
    step.side = side_of(cut.side);
    step.part = part_of(cut.part);
    step.scale = scale_of(cut);
    if (form_of(cut).port && !find_entries(step)) return;
    if (cut.act == Act::outline && !load_outline()) return;
    if (!trace(step) || !fits(step)) return;
    if (cut.act == Act::swap && !load_part(step)) return;
    prepared->steps.push_back(std::move(step));
  }

  base::Errors errors;
  std::shared_ptr<Prepared> prepared = std::make_shared<Prepared>();

 private:
  bool fail(ErrorCode code, const std::string& why, std::string hint = {}) {
    errors.push_back({code, shown(name()) + " " + why, path_, std::move(hint), {}});
    return false;
  }
  std::string name() const { return cut_->text.empty() ? cut_text(*cut_) : cut_->text; }
  std::string file() const { return (std::filesystem::path(folder_) / cut_->file).string(); }

  bool find_entries(Step& step) {
    const int first = survey_.find_port(cut_->port);
    if (first < 0) return tell_unknown_port();
    step.entries.add(first);
    for (std::size_t i = 0; i < survey_.ports.size(); ++i) {
      if (survey_.ports[i].twin_of == first) step.entries.add(static_cast<int>(i));
    }
    return true;
  }

  bool tell_unknown_port() {
    std::vector<std::string_view> names;
    std::string list;
    for (const geometry::PortSlots& port : survey_.ports) {
      if (port.twin_of >= 0) continue;
      names.push_back(port.name);
      list += (list.empty() ? "" : ", ") + port.name;
    }
    const std::string_view near = nearest_word(cut_->port, names);
    return fail(ErrorCode::not_found, "names a port that this saw does not have: " + shown(cut_->port),
                names.empty()  ? "this saw has no ports yet"
                : near.empty() ? "its ports are " + list
                               : "the nearest is " + std::string(near));
  }

  bool load_outline() {
    auto outline = read_outline(*cut_, file());
    if (!outline) return fail(outline.error().code, "cannot be done: " + outline.error().message, outline.error().hint);
    loaded_ = *std::move(outline);
    return true;
  }

  /// The outline of each entry after the cut; windows built from sizes have none.
  bool trace(Step& step) {
    for (const int entry : step.entries) {
      Window& outline = outlines_[static_cast<std::size_t>(entry)];
      if (cut_->act == Act::outline)
        outline = loaded_;
      else if (!outline.empty() && !cut_traced(step, outline))
        return false;
      step.traced.push_back(outline);
    }
    return true;
  }

  bool cut_traced(const Step& step, Window& outline) {
    if (step.act == Act::corner)
      return fail(ErrorCode::bad_cut, "does not fit: the window is traced, and its corners are in its outline");
    if (step.act == Act::mouth) return true;
    outline = cut_outline(outline, step);
    return !outline.empty() || fail(ErrorCode::bad_cut, "leaves no window of its outline");
  }

  bool fits(const Step& step) {
    const bool reed = step.act == Act::petal || step.part == Part::reed;
    if (reed && survey_.intake == geometry::IntakeKind::skirt)
      return fail(ErrorCode::bad_cut, "does not fit this saw: its intake has no reed");
    return true;
  }

  bool load_part(Step& step) {
    auto swapped = swap_part(*cut_, step.part, survey_, stock_, file());
    if (!swapped) {
      for (Error& error : swapped.error()) {
        if (error.path.empty()) error.path = path_;
        errors.push_back(std::move(error));
      }
      return false;
    }
    step.swapped = *std::move(swapped);
    for (std::size_t i = 0; step.part == Part::cylinder && i < outlines_.size(); ++i) {
      const geometry::Port& port = step.swapped->ports[i];
      outlines_[i] = port.traced ? port.window.moved_down(-port.window.roof()) : Window();
    }
    return true;
  }

  const Survey& survey_;
  const std::string& folder_;
  Engine stock_;
  std::vector<Window> outlines_;  ///< of each entry after the cuts so far, roof at y = 0
  Window loaded_;
  const Cut* cut_ = nullptr;
  std::string path_;
};

}  // namespace

base::ResultAll<std::shared_ptr<const Prepared>> prepare(const CutList& cuts, const Survey& survey,
                                                         const std::string& folder) {
  Preparer preparer(survey, folder);
  for (std::size_t i = 0; i < cuts.size(); ++i) preparer.add(cuts[i], i + 1);
  if (!preparer.errors.empty()) return tl::unexpected(std::move(preparer.errors));
  return std::shared_ptr<const Prepared>(std::move(preparer.prepared));
}

}  // namespace portwright::cuts
