import { Module } from '@nestjs/common';
import { ProductsController } from './products.controller.js';

/** Products: what is tested. */
@Module({ controllers: [ProductsController] })
export class ProductsModule {}
