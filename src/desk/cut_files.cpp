// Cut lists that name files of the disk.
#include "cuts/cut.hpp"
#include "desk/desk.hpp"

namespace portwright::desk {

base::ResultAll<void> without_files(const std::string& cuts) {
  const auto list = cuts::parse_cuts(cuts);
  if (!list) return {};
  base::Errors errors;
  for (std::size_t i = 0; i < list->size(); ++i)
    if (const cuts::Cut& cut = (*list)[i]; !cut.file.empty())
      errors.push_back({base::ErrorCode::bad_cut,
                        "\u201C" + cut.text + "\u201D names a file, and none is read here.",
                        "cuts." + std::to_string(i + 1),
                        "The command line takes it.",
                        {}});
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return {};
}

}  // namespace portwright::desk
