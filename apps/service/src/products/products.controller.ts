import { Product } from '@breakbook/lab';
import { type RawStore, Records } from '@breakbook/records';
import { Body, Controller, Get, Inject, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { defined, revised } from '../records/change-kind.js';
import {
  type Change,
  changeTo,
  type Kept,
  type KeptVersion,
  keptOf,
  type PageOf,
  pageOf,
  versionOf,
} from '../records/kept.js';
import { Paging } from '../records/paging.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { keptHistory, keptOne, keptPage } from '../records/read-kind.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { LotsOverTime, ProductHistory } from './lots-over-time.js';
import { PRODUCT } from './product-kind.js';

const KeptProduct = keptOf(Product);

/** What is tested: designs of rims and wheels. */
@Controller('api/products')
@UseInterceptors(VersionTag)
export class ProductsController {
  readonly #lots: ProductHistory;

  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) store: RawStore,
  ) {
    this.#lots = new ProductHistory(store);
  }

  @Get()
  @Duty('signed in')
  @Answers('Products', pageOf(KeptProduct))
  list(@Query(queriedBy(Paging)) paging: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<Kept<Product>>> {
    return keptPage(this.records.read(by.labId), PRODUCT, paging);
  }

  @Get(':product')
  @Duty('signed in')
  @Answers('One product', KeptProduct)
  one(@Param('product') product: string, @SignedIn() by: SignedInActor): Promise<Kept<Product>> {
    return keptOne(this.records.read(by.labId), PRODUCT, product);
  }

  @Get(':product/history')
  @Duty('signed in')
  @Answers('Everything that was said of a product', pageOf(versionOf(Product)))
  history(
    @Param('product') product: string,
    @Query(queriedBy(Paging)) paging: Paging,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<KeptVersion<Product>>> {
    return keptHistory(this.records.read(by.labId), PRODUCT, product, paging);
  }

  @Get(':product/lots-over-time')
  @Duty('signed in')
  @Answers('How the lots of a product did one after the other', LotsOverTime)
  lotsOverTime(@Param('product') product: string, @SignedIn() by: SignedInActor): Promise<LotsOverTime> {
    return this.#lots.of(this.records.read(by.labId), product);
  }

  @Post()
  @Duty('define')
  @Answers('Define a product', KeptProduct)
  define(@Body(parsedBy(Product)) product: Product, @SignedIn() by: SignedInActor): Promise<Kept<Product>> {
    return defined(this.records, by, PRODUCT, product);
  }

  @Put(':product')
  @Duty('define')
  @Answers('Say something else of a product', KeptProduct)
  change(
    @Param('product') product: string,
    @IfMatch() follows: number,
    @Body(parsedBy(changeTo(Product))) change: Change<Product>,
    @SignedIn() by: SignedInActor,
  ): Promise<Kept<Product>> {
    return revised(this.records, by, PRODUCT, product, change, follows);
  }
}
