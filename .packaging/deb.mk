# SPDX-License-Identifier: GPL-3.0-or-later
# make dist: build/dist/dewledger-VERSION.tar.xz, of the last commit; the same
# commit gives the same bytes.  make deb: Debian packages of it in build/deb,
# looked over by lintian.  make symbols: the list of what the library exports.
# docs/packages.md says what comes of them.
.PHONY: dist deb symbols
DIST := dewledger-$(VERSION)
DEBS := build/deb/$(DIST)

dist:
	@mkdir -p build/dist
	@git archive --format=tar --prefix=$(DIST)/ HEAD >build/dist/$(DIST).tar
	@xz -9 -T1 -f build/dist/$(DIST).tar
	@echo build/dist/$(DIST).tar.xz

deb: dist
	@rm -rf build/deb
	@mkdir -p build/deb
	@tar -C build/deb -xf build/dist/$(DIST).tar.xz
	@cp -R $(DEBS)/.packaging/debian $(DEBS)/debian
	@sed -e 's/@VERSION@/$(VERSION)/' \
	  -e "s/@DATE@/$$(git log -1 --format=%cD)/" \
	  $(DEBS)/.packaging/changelog.in >$(DEBS)/debian/changelog
	cd $(DEBS) && env -u MAKEFLAGS -u MAKELEVEL -u MFLAGS -u DEW_BUILD \
	  dpkg-buildpackage -us -uc -b
	lintian --fail-on warning build/deb/*.changes
	@ls build/deb/*.deb

symbols: $B/libdew.so.$(SOVERSION)
	@sh .packaging/symbols.sh $< $(SOVERSION) >$B/symbols
	@cp $B/symbols .packaging/debian/libdew$(SOVERSION).symbols

.PHONY: deb-try
deb-try:
	bash .packaging/try.sh build/deb
