#pragma once
// The maker of a Survey: turns typed readings into numbered inputs with their errors. Inside the module only.

#include <map>
#include <string>

#include "geometry/survey.hpp"
#include "tables/assumptions.hpp"
#include "tables/instruments.hpp"
#include "tables/materials.hpp"

namespace portwright::geometry {

class Surveyor {
 public:
  explicit Surveyor(Survey& survey) : survey_(survey) {}

  /// Number of the reading at `path` among those that something may wait for.
  int need(const std::string& path);
  /// The reading's input when it was taken, can be read and lies in the allowed box; else its need.
  Slot slot(const std::string& path, const saw::Reading& reading, base::Dimension dimension,
            const std::string& kind = {});
  /// The same with a named assumption for a missing reading.
  Slot slot_or(const std::string& path, const saw::Reading& reading, base::Dimension dimension,
               const std::string& assumption);
  /// The same with a constant (nothing there: no bridge, no arch).
  Slot slot_or_constant(const std::string& path, const saw::Reading& reading, base::Dimension dimension,
                        double constant, const std::string& kind = {});
  Slot number(const std::string& path, const std::optional<double>& number);
  /// Input of a named assumption, made once a name and `of` (a port's corner has its own).
  int assume(const std::string& assumption, const std::string& of = {});
  /// Input of the reading, or -1; errors of the reading go to the survey.
  int input_of(const std::string& path, const saw::Reading& reading, base::Dimension dimension,
               const std::string& kind = {});
  /// Input of one typed item of a list, with an error of its own.
  int input_of(const std::string& path, std::size_t item, const saw::Typed& typed, base::Dimension dimension);
  /// Input of one typed item of a list whose items all err by one cause, named by the path; each by its own sigma.
  int input_of_one_cause(const std::string& path, const saw::Typed& typed, base::Dimension dimension);
  /// Input of an error about 0 whose 95 % bound was read, or -1; errors of the reading go to the survey.
  int input_within(const std::string& path, const saw::Reading& reading, base::Dimension dimension);
  /// Input of the modulus of a named material [Pa].
  int input_of_material(const std::string& path, const tables::MaterialRow& row);
  int source(const std::string& name, double sigma);
  void error(base::ErrorCode code, std::string message, std::string path, std::string hint = {},
             std::vector<std::string> readings = {});

 private:
  struct Worth {
    double own = 0.0, shared = 0.0;
    std::string shares, source;
  };
  Worth worth(const std::string& path, const saw::Reading& reading, double value, base::Dimension dimension,
              const std::string& kind);
  double spread_own(const std::string& path, const saw::Reading& reading, double own);
  bool in_box(const std::string& path, const saw::Reading& reading, double value, base::Dimension dimension,
              const std::string& kind);

  Survey& survey_;
  std::map<std::string, int> needs_, sources_, assumed_;
};

/// The text as typed, repeats joined: "50.0 mm".
[[nodiscard]] std::string typed_text(const saw::Reading& reading);

}  // namespace portwright::geometry
