/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything the library offers.  For users; the library's own code includes
   the headers it needs. */
#ifndef DEW_H
#define DEW_H

#include "dew/air.h"
#include "dew/buffer.h"
#include "dew/climate.h"
#include "dew/coil.h"
#include "dew/core.h"
#include "dew/cost.h"
#include "dew/dryer.h"
#include "dew/drying.h"
#include "dew/ducts.h"
#include "dew/ducts_report.h"
#include "dew/fresh.h"
#include "dew/house.h"
#include "dew/layout.h"
#include "dew/leakage.h"
#include "dew/library.h"
#include "dew/log.h"
#include "dew/made.h"
#include "dew/march.h"
#include "dew/network.h"
#include "dew/parts.h"
#include "dew/plant.h"
#include "dew/rates.h"
#include "dew/report.h"
#include "dew/run.h"
#include "dew/scenario.h"
#include "dew/sources.h"
#include "dew/status.h"
#include "dew/study.h"
#include "dew/sun.h"
#include "dew/surface.h"
#include "dew/thermal.h"
#include "dew/thumb.h"
#include "dew/unit.h"
#include "dew/verdict.h"
#include "dew/weather.h"
#include "dew/wetting.h"

#endif
